"""The pages of grants: who opens them, what is refused with which sentence, and that nothing typed is lost."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse

from outreach.preparing import prepare
from outreach.wording.year import YEAR
from outreach.wording.year_counts import grants
from partners.funding.buying_actions import Bought, record_receipt, write_slip
from partners.funding.grant_actions import claim
from partners.funding.grant_models import Grant, GrantLine
from partners.program.models import Opened
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_desk, make_partner, make_program, make_school

pytestmark = pytest.mark.django_db
NEW = reverse("funding:grant-new")
READ = ("grant-list", "grant-detail")
FORMS = ("grant-edit", "grant-ask", "grant-answer", "grant-change", "grant-words")
POSTS = ("grant-claimed", "grant-reported", "grant-leave", "grant-remove", "grant-rest-back", "grant-take-over")


def at(name, pk=None):
    return reverse(f"funding:{name}", args=[] if pk is None else [pk])


def make_grant(program, **values):
    partner = make_partner(program, "Alder Falls Education Fund", kind="grantmaker")
    grant = Grant.objects.create(program=program, partner=partner, title="clay tiles", **values)
    for position, (what, cents) in enumerate((("clay", 36_000), ("tools", 14_000)), start=1):
        GrantLine.objects.create(program=program, grant=grant, what=what, planned_cents=cents, position=position)
    return grant


def awarded(program):
    return make_grant(
        program, state="awarded", awarded_cents=50_000, asked_cents=50_000, asked_on=TUESDAY, answered_on=TUESDAY
    )


def test_why_they_refused_is_for_no_guest(client, june, grace):
    grant = make_grant(june.program, state="refused", answered_on=TUESDAY, refusal_reason="Only for sports.")
    pages = (at("grant-detail", grant.pk), grant.partner.get_absolute_url())
    grace.opened = list(Opened)
    grace.save()
    for who, reads in ((june, True), (grace, False)):
        enter(client, who)
        assert [("Only for sports." in client.get(page).content.decode()) for page in pages] == [reads, reads]


def test_the_ladder(client, june, grace, otto):
    grant = awarded(june.program)
    strange = make_grant(make_program("Elsewhere"), state="asked")
    assert status(client, at("grant-detail", grant.pk)) == 302
    enter(client, grace)
    assert status(client, at("grant-detail", grant.pk)) == 403
    grace.opened = [Opened.MONEY]
    grace.save()
    grant.note = "only for us"
    grant.save()
    page = client.get(at("grant-detail", grant.pk)).content.decode()
    assert "clay" in page
    assert "only for us" not in page
    assert [status(client, at(name, grant.pk)) for name in FORMS] == [403] * len(FORMS)
    assert [status(client, at(name, grant.pk), "post") for name in POSTS] == [403] * len(POSTS)
    enter(client, june)
    assert [status(client, at(name, pk)) for name in (*FORMS, "grant-detail") for pk in (UNKNOWN, strange.pk)] == [
        404
    ] * 12
    assert [status(client, at(name, grant.pk)) for name in POSTS] == [405] * len(POSTS)


LINE = {"line-0-what": "clay", "line-0-planned": "360", "line-TOTAL_FORMS": "4", "line-INITIAL_FORMS": "0"}
TYPED = {"partner": "Harbor Light Fund", "title": "clay tiles", **LINE}


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"partner": ""}, "Say who gives the grant"),
        ({"asked_cents": "-5"}, "Type the amount without a minus sign."),
        ({"asked_cents": "99999999999"}, "more than this book keeps"),
        ({"asked_cents": "0"}, "Nothing is no amount to ask for."),
        ({"line-0-planned": "12,5"}, "can be read in two ways"),
        ({"line-0-planned": ""}, "Say what it costs"),
        ({"line-0-what": ""}, "Say what it is."),
        ({"apply_by": "2062-01-01"}, "Is the year right?"),
        ({"school": "5000"}, "not one of the available choices"),
    ],
)
def test_what_cannot_be_is_said_and_what_was_typed_stays(signed_in, typed, said):
    page = flat(signed_in.post(NEW, {**TYPED, "note": "keep this", **typed}))
    assert said in page
    assert "keep this" in page
    assert not Grant.objects.exists()


def test_what_is_left_empty_is_what_the_lines_come_to(signed_in):
    second = {"line-1-what": "tools", "line-1-planned": "98", "line-1-shipping": "7.00"}
    signed_in.post(NEW, {**TYPED, **second})
    # By hand: 360.00 + 98.00 + 7.00 = 465.00.
    assert Grant.objects.get().asked_cents == 46_500


def test_lines_that_do_not_sum_are_named_until_somebody_says_they_are_right(signed_in, june):
    grant = make_grant(june.program, asked_cents=55_000)
    words = "The lines come to $500.00, and $550.00 is asked for: $50.00 stands in no line."
    assert words in flat(signed_in.get(at("grant-detail", grant.pk)))
    typed = {"asked_on": "2026-10-06", "asked_cents": "550.00"}
    assert words in flat(signed_in.post(at("grant-ask", grant.pk), typed))
    assert signed_in.post(at("grant-ask", grant.pk), {**typed, "all_the_same": "on"}).status_code == 302


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"said": ""}, "Say whether they award it."),
        ({"awarded_cents": ""}, "An award has its amount."),
        ({"awarded_cents": "-400"}, "without a minus sign"),
        ({"answered_on": "2026-10-05"}, "That lies before the day it was asked, October 6, 2026."),
        ({"spend_by": "2026-10-07"}, "That lies before the first day to buy, October 8, 2026."),
        ({"report_due": "2026-10-07", "buy_from": ""}, "That lies before the day they answered, October 8, 2026."),
    ],
)
def test_days_and_amounts_of_an_award_stand_in_order(signed_in, june, typed, said):
    grant = make_grant(june.program, state="asked", asked_cents=50_000, asked_on=TUESDAY)
    answered = {"said": "awarded", "answered_on": "2026-10-08", "awarded_cents": "400", "buy_from": "2026-10-08"}
    page = flat(signed_in.post(at("grant-answer", grant.pk), {**answered, "conditions": "keep this", **typed}))
    assert said in page
    assert "keep this" in page
    grant.refresh_from_db()
    assert grant.state == "asked"


def test_putting_a_grant_right_keeps_its_days_in_order_and_lines_that_receipts_are_charged_to(signed_in, june):
    grant = make_grant(june.program, state="asked", asked_cents=50_000, asked_on=TUESDAY)
    line = grant.lines.get(what="clay")
    desk = make_desk(june.program)
    bought = write_slip(desk=desk, vendor="Hollow Creek Clay", what="clay")
    charged = Bought(what="clay", cents=100, grant_line=line)
    record_receipt(desk=desk, purchase=bought, lines=[charged], bought_on=TUESDAY)
    typed = {**TYPED, "asked_on": "2026-10-05", "asked_cents": "500", "answer_by": "2026-10-01"}
    typed |= {"line-INITIAL_FORMS": "1", "line-0-row": line.pk, "line-0-what": ""}
    page = flat(signed_in.post(at("grant-edit", grant.pk), typed))
    assert "That lies before the day it was asked, October 5, 2026." in page
    assert "“clay” stays: a receipt is charged to it" in page
    grant = awarded(june.program)
    claim(desk=desk, grant=grant, day=TUESDAY)
    terms = {"answered_on": "2026-10-07", "awarded_cents": "500"}
    page = flat(signed_in.post(at("grant-answer", grant.pk), terms))
    assert "It was claimed on October 6, 2026, before that." in page


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({}, "Say what changes"),
        ({"moved_cents": "10"}, "To which line?"),
        ({"moved_cents": "400", "to": 1}, "Only $360.00 is left for “clay”"),
        ({"moved_cents": "10", "to": 0}, "That is the same line."),
        ({"becomes": "glaze", "agreed_on": "2026-10-05"}, "That lies before the day they answered"),
    ],
)
def test_a_change_needs_what_how_much_and_who(signed_in, june, typed, said):
    grant = awarded(june.program)
    lines = list(grant.lines.all())
    to_line = {"to_line": lines[typed["to"]].pk} if "to" in typed else {}
    data = {"line": lines[0].pk, "agreed_by": "Ada Quill", "agreed_on": "2026-10-06", **typed, **to_line}
    assert said in flat(signed_in.post(at("grant-change", grant.pk), data))
    assert not grant.changes.exists()


def test_what_is_left_leads_to_what_to_buy_with_it(signed_in, june):
    grant = awarded(june.program)
    Grant.objects.filter(pk=grant.pk).update(awarded_cents=125_050)
    page = flat(signed_in.get(at("grant-detail", grant.pk)))
    assert f'{reverse("wish_list:leftover")}?left=1250.50&amp;grant={grant.pk}"' in page


def test_lines_and_answers_that_somebody_else_changed_meanwhile_are_not_saved_over(signed_in, june):
    grant = make_grant(june.program)
    line = grant.lines.get(what="clay")
    typed = {"title": grant.title, "seen": 1, "asked_cents": "", "line-TOTAL_FORMS": "1", "line-INITIAL_FORMS": "1"}
    typed |= {"partner": "Mill Street Trust", "line-0-row": line.pk, "line-0-what": "clay", "line-0-planned": "360"}
    first = {**typed, "line-0-what": "red clay", "asked_cents": "360"}
    assert signed_in.post(at("grant-edit", grant.pk), first).status_code == 302
    grant.refresh_from_db()
    assert (grant.partner.name, grant.partner.kind) == ("Mill Street Trust", "grantmaker")
    typed |= {"asked_cents": "360", "seen": grant.version}
    assert signed_in.post(at("grant-edit", grant.pk), {**typed, "line-0-what": "white clay"}).status_code == 302
    late = signed_in.post(at("grant-edit", grant.pk), {**typed, "line-0-what": "grey clay"})
    assert (late.status_code, "grey clay · 360" in flat(late)) == (409, True)
    line.refresh_from_db()
    assert line.what == "white clay"
    answer = {"answer-TOTAL_FORMS": "1", "answer-INITIAL_FORMS": "0", "answer-0-question": "Why?", "seen": 1}
    assert signed_in.post(at("grant-words", grant.pk), answer).status_code == 409


def test_a_part_of_it_is_answered_from_the_lines_of_the_application(signed_in, june):
    grant = make_grant(june.program)
    signed_in.post(at("ready-answers-begin"))
    ready = list(june.program.ready_answers.values_list("pk", flat=True))
    assert flat(signed_in.get(at("grant-words", grant.pk))).count(" checked") == len(ready)
    signed_in.post(at("grant-take-over", grant.pk), {"ready": ready})
    assert grant.answers.count() == 4
    assert grant.answers.last().words.endswith("with $360.00 we would buy clay, with $500.00 also tools.")


def test_an_award_says_what_is_next_and_the_list_what_is_late(signed_in, june):
    grant = awarded(june.program)
    assert "Buy from it" in flat(signed_in.get(at("grant-detail", grant.pk)))
    passed = {"spend_by": TUESDAY - timedelta(days=9), "claim_by": TUESDAY - timedelta(days=2)}
    Grant.objects.filter(pk=grant.pk).update(**passed)
    assert 'href="#claim"' in flat(signed_in.get(at("grant-detail", grant.pk)))
    assert "late: spend by" in flat(signed_in.get(at("grant-list")))
    Grant.objects.filter(pk=grant.pk).update(claimed_on=TUESDAY, leftover_settled=True)
    assert 'href="#report"' in flat(signed_in.get(at("grant-detail", grant.pk)))


def test_an_application_for_no_one_school_is_told_whose_yes_each_of_them_needs(signed_in, june):
    for name, who in (("Millrace Elementary", "the principal"), ("North Ridge Elementary", "the board")):
        school = make_school(june.program, name)
        june.program.procedures.create(program=june.program, school=school, what_for="grants", who=who)
    page = flat(signed_in.get(at("grant-detail", make_grant(june.program).pk)))
    assert "At Millrace Elementary, the principal must say yes" in page
    assert "At North Ridge Elementary, the board must say yes" in page


def test_a_slip_says_that_its_grant_is_not_accepted_yet(signed_in, desk):
    grant = awarded(desk.program)
    Grant.objects.filter(pk=grant.pk).update(accept_by_whom="the school board", accept_due=desk.day)
    slip = write_slip(desk=desk, vendor="Corner Art", what="clay", grant=grant)
    waits = "The grant’s money is not accepted yet. Who must say yes to it: the school board."
    assert waits in flat(signed_in.get(slip.get_absolute_url()))
    Grant.objects.filter(pk=grant.pk).update(accepted_on=desk.day)
    assert waits not in flat(signed_in.get(slip.get_absolute_url()))


@pytest.mark.parametrize(("name", "said"), [("claimed", "Claimed."), ("reported", "The report is handed in.")])
def test_nothing_spent_is_asked_about_before_it_is_done(signed_in, desk, name, said):
    grant = awarded(desk.program)
    Grant.objects.filter(pk=grant.pk).update(spent_cents=0)
    typed = {f"{name}-day": str(TUESDAY)}
    assert "Nothing of it is spent. Charge the receipts first" in flat(
        signed_in.post(at(f"grant-{name}", grant.pk), typed)
    )
    source = {"claimed": "funding.claim", "reported": "funding.report"}[name]
    due = {"claim_by": TUESDAY, "report_due": TUESDAY}
    Grant.objects.filter(pk=grant.pk).update(**due)
    page = flat(signed_in.post(reverse("agenda:settle", args=[source, grant.pk]), {"act": "done"}, follow=True))
    assert "If that is right, say so on the grant’s own page." in page
    page = flat(signed_in.post(at(f"grant-{name}", grant.pk), {**typed, f"{name}-nothing_spent": "on"}, follow=True))
    assert said in page


def test_what_was_paid_in_advance_and_not_spent_goes_back_and_the_report_says_so(signed_in, desk):
    grant = awarded(desk.program)
    Grant.objects.filter(pk=grant.pk).update(claim_by=None, spend_by=TUESDAY)
    page = flat(signed_in.post(at("grant-rest-back", grant.pk), {"rest_back-day": str(TUESDAY)}, follow=True))
    assert "went back to them on October 6, 2026." in page
    assert "went back to them</summary>" not in page
    body = " ".join(prepare(desk, "grant-report", grant.pk).facts.body)
    assert "What was left went back to you on October 6, 2026." in body
    assert "$500.00 went back, $0.00 left" in flat(signed_in.get(reverse("year:year")))
    assert "$500.00 went back unspent, $0.00 left" in grants(prepare(desk, "yearly-summary", 0).facts, YEAR["en"])
