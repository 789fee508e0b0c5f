"""The memo of a trade: both sides with their days, what both agreed besides, two copies, and its versions."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import trade_memo
from outreach.documents.trade_memo import draw, gaps, terms
from outreach.page import lost_signs
from outreach.preparing import prepare
from partners.agenda.check_book import differences
from partners.exchanges.actions import Given, PlainItems, agree, edit_trade
from partners.exchanges.models import Trade
from partners.program.desk import Desk
from partners.program.models import Membership, Opened
from tests.ladder import flat
from tests.outreach.sheets import LONG_NAME, Printed
from tests.outreach.trades import LONG_MEMO, MEMO
from tests.people import make_partner, make_school
from tests.whole_book import rows

DUE = date(2027, 4, 16)


@pytest.fixture
def trade(desk: Desk) -> Trade:
    partner = make_partner(desk.program, kind="library")
    plain = PlainItems(side="them", due=date(2027, 3, 5), what="plain seed packets", carrier="the library")
    return agree(
        desk=desk, partner=partner, what="decorated seed packets", at_least=250, at_most=300, due=DUE, carrier="June",
        plain=plain, gives=[Given(what="terracotta pots", quantity=120, due=date(2027, 4, 30))],
        school=make_school(desk.program), names_on_work="school and grade", note="they pay late",
    )  # fmt: skip


def hand_over(client: Client, trade: Trade) -> Any:
    address = reverse("outreach:document-hand-over", args=["trade-memo", trade.pk])
    return client.post(address, {"state": "handed_over"})


def text(desk: Desk, trade: Trade) -> str:
    prepared = prepare(desk, "trade-memo", trade.pk)
    return Printed(draw(prepared.facts)).text


@pytest.mark.parametrize(
    "said",
    [
        "250 to 300 decorated seed packets (4 by 5 inches) by Friday, April 16, 2027 brought by: June",
        "330 plain seed packets, with 10% spares by Friday, March 5, 2027 brought by: Dana Whitlock",
        "120 terracotta pots, 4 inch by Friday, April 30, 2027",
        "From April 19, 2027, taken down by May 14, 2027",
        "School and grade. No last names.",
        "of a child only with a signed release",
        "The packets are given away",
        "Whoever is late",
        "endorses no business",
        "does not insure",
        "IRS Topic 420",
        "for Millrace Elementary",
        "for Riverbend Garden Center",
        "Approved for the school by Maria Ortega on February 16, 2027.",
    ],
)
def test_each_copy_says_what_was_agreed(said):
    assert [said in page for page in Printed(draw(MEMO)).pages] == [True, True]


def signed_by_principal(facts: Any) -> bool:
    return "Principal" in Printed(draw(facts)).pages[0]


def test_the_principal_signs_unless_this_very_trade_was_approved():
    assert not signed_by_principal(MEMO)
    assert signed_by_principal(replace(MEMO, approved_by=""))
    assert signed_by_principal(replace(MEMO, approved_on=date(2026, 9, 13)))


def test_each_side_has_a_copy_of_one_page():
    first, second = Printed(draw(MEMO)).pages
    assert "School’s copy" in first
    assert "Shop’s copy" in second
    # The label is of another length, and with it the blanks between what stands in one line.
    one, other = first.replace("School’s copy", "").split(), second.replace("Shop’s copy", "").split()
    assert "".join(one) == "".join(other)


@pytest.mark.parametrize(
    ("kind", "words"),
    [("library", "Library gives"), ("arts_group", "Arts group gives"), ("person", "Riverbend Garden")],
)
def test_the_other_side_is_called_what_it_is(kind, words):
    assert words in Printed(draw(replace(MEMO, kind=kind))).pages[0]


def test_the_teachers_own_phone_stands_there_and_the_schools_only_once(desk, trade):
    for phone, said in (("(201) 555-0117", "June, (201) 555-0117)"), (trade.school.phone, "June)")):
        desk.program.teacher, desk.program.phone = "June", phone
        assert said in text(desk, trade)


def test_plain_items_stand_with_whoever_supplies_them():
    theirs, ours = (Printed(draw(replace(MEMO, plain_by_us=us))) for us in (False, True))
    places = []
    for printed in (theirs, ours):
        signs = printed.signs()
        start = "".join(sign.sign for sign in signs).index("330plain")
        places.append(signs[start].left > 4)
    assert places == [True, False]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_ordinary_memo_fits_one_page_for_each_side(paper, language):
    assert len(Printed(draw(replace(MEMO, paper=paper, language=language, version=2, replaces=DUE))).pages) == 2


def test_the_longest_memo_goes_on_properly_and_loses_nothing():
    pages = Printed(draw(LONG_MEMO)).pages
    assert "second-page" in [gap.code for gap in gaps(LONG_MEMO)]
    assert "<b>Müller</b>" in pages[0]
    assert all(page.startswith("School’s copy") and "School makes" in page for page in pages[1:2])
    assert all(" ".join(pages).count(part) == 2 for part in ("Approved for the school", "Also agreed", "Version 3."))
    assert lost_signs(LONG_MEMO)


def test_every_sign_stays_inside_the_margins():
    for page in range(6):
        assert all(one.left > 1.0 - 0.02 and one.right < 7.5 + 0.02 for one in Printed(draw(LONG_MEMO)).signs(page))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"approved_by": ""}, "no-approval"),
        ({"contact": ""}, "no-contact"),
        ({"gives": ()}, "no-gives"),
        ({"if_late": ""}, "no-late"),
        ({"afterwards": ""}, "no-afterwards"),
        ({"names_on_work": ""}, "no-names"),
        ({"more": "the pots are worth $240"}, "value"),
        ({"make": replace(MEMO.make, carrier="")}, "no-carrier"),
        ({"make": replace(MEMO.make, due=date(2027, 3, 5))}, "plain-late"),
    ],
)
def test_gaps_name_what_is_missing(change, code):
    assert gaps(MEMO) == ()
    assert [gap.code for gap in gaps(replace(MEMO, **change))] == [code]


def test_without_an_approval_needed_none_is_missed():
    assert gaps(replace(MEMO, approved_by="", needs_approval=False)) == ()


def test_terms_are_what_was_agreed_and_nothing_else():
    same = [{"language": "es"}, {"day": DUE}, {"partner": LONG_NAME}, {"approved_by": ""}, {"version": 4}]
    other = [{"more": "more"}, {"spare_percent": 12}, {"plain_by_us": True}, {"display_until": DUE}, {"gives": ()}]
    assert {terms(replace(MEMO, **change)) for change in same} == {terms(MEMO)}
    assert len({terms(replace(MEMO, **change)) for change in other} | {terms(MEMO)}) == len(other) + 1


@pytest.mark.django_db
def test_facts_come_from_the_trade(desk: Desk, trade: Trade):
    told = text(desk, trade)
    for words in (
        "250 to 300 decorated seed packets",
        "330 plain seed packets",
        "Library gives",
        "120 terracotta pots",
    ):
        assert words in told
    assert "they pay late" not in told


@pytest.mark.django_db
def test_the_same_memo_again_is_no_new_version(signed_in: Client, desk: Desk, trade: Trade):
    page = reverse("outreach:document-prepare", args=["trade-memo", trade.pk])
    signed_in.post(page, {"more": "We water them in May", "language": "en"})
    for _time in range(2):
        hand_over(signed_in, trade)
    assert trade.letters.count() == 2
    told = text(desk, trade)
    assert "Version" not in told
    assert "We water them in May." in told


@pytest.mark.django_db
def test_changed_terms_are_a_version_of_their_own_and_the_old_stays(signed_in: Client, desk: Desk, trade: Trade):
    hand_over(signed_in, trade)
    old = trade.letters.get()
    frozen = bytes(old.sheet.pdf)
    for version, days in ((2, 7), (3, 0), (4, 7)):
        edit_trade(desk=desk, trade=Trade.objects.get(pk=trade.pk), at_least=250, due=DUE + timedelta(days), gives=[])
        assert f"Version {version}. It replaces the memo of" in text(desk, trade)
        hand_over(signed_in, trade)
    assert [str(letter) for letter in trade.letters.order_by("pk")][1].startswith("Memo of the trade, version 2: ")
    assert bytes(trade.letters.get(pk=old.pk).sheet.pdf) == frozen


@pytest.mark.django_db
def test_going_out_signs_and_approves_nothing(signed_in: Client, desk: Desk, trade: Trade):
    before = rows(desk.program)
    assert hand_over(signed_in, trade).status_code == 302
    after = rows(desk.program)
    assert {kind for kind, _pk in after.keys() - before.keys()} == {"letters", "sheets"}
    assert {key: after[key] for key in before} == before
    assert Trade.objects.get(pk=trade.pk).memo_signed_on is None
    assert differences(desk.program) == []


@pytest.mark.django_db
def test_the_register_leads_back_to_the_words_of_the_trade(signed_in: Client, trade: Trade):
    page = reverse("outreach:document-prepare", args=["trade-memo", trade.pk])
    signed_in.post(page, {"more": "one visit", "language": "en"})
    answer = signed_in.get(reverse("outreach:letter-words", args=[trade.letters.get().pk]))
    assert answer["Location"] == page


@pytest.mark.django_db
@pytest.mark.parametrize(("opened", "status"), [([Opened.TRADES], 200), ([Opened.LETTERS], 403), ([], 403)])
def test_a_guest_needs_trades_opened(client: Client, grace: Membership, desk: Desk, trade: Trade, opened, status):
    Membership.objects.filter(pk=grace.pk).update(opened=opened)
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse("outreach:document", args=[trade_memo.SLUG, trade.pk])).status_code == status


@pytest.mark.django_db
def test_the_trades_page_leads_to_the_memos_that_went_out(signed_in: Client, trade: Trade):
    assert "as it was handed over" not in flat(signed_in.get(trade.get_absolute_url()))
    hand_over(signed_in, trade)
    page = flat(signed_in.get(trade.get_absolute_url()))
    assert f'href="{trade.letters.get().get_absolute_url()}"' in page
    assert "as it was handed over" in page


@pytest.mark.django_db
def test_spares_are_named_where_the_number_includes_them(desk: Desk, trade: Trade):
    assert "330 plain seed packets, with 10% spares" in text(desk, trade)
    trade.promises.filter(part="plain").update(quantity=300)
    assert "spares" not in text(desk, trade)
