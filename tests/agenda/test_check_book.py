"""check_book sees every stored fact that does not follow from the record."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.core.management import CommandError, call_command

from partners.agenda.check_book import differences
from partners.directory.actions import add_contact, add_partner
from partners.gifts.actions import Line, receive
from partners.letters.actions import gone_out, keep_words
from partners.program.desk import Desk
from partners.promises.actions import make_offer, promise, skip
from partners.visits.actions import plan_follow_up, record_ask, record_visit
from tests import people
from tests.agenda.books import MAKERS, make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture
def book(desk: Desk) -> Desk:
    """A sound book with a row for every fact that is kept ready."""
    people.make_school(desk.program)
    place = {
        "phone": "(201) 555-0110",
        "street": "410 River Road",
        "city": "Alder Falls",
        "web": "riverbend.example.org",
    }
    partner = add_partner(desk=desk, name="Riverbend", **place)
    add_contact(desk=desk, partner=partner, name="Dana Whitlock")
    record_visit(desk=desk, partner=partner, happened="hello", day=DAY)
    plan_follow_up(desk=desk, partner=partner, base=DAY)
    record_ask(desk=desk, partner=partner, what="clay", asked_on=DAY)
    offer = make_offer(desk=desk, partner=partner, what="tubes", first_on=DAY, every="week")
    skip(desk=desk, promise=offer.promises.get(), day=DAY)
    pots = promise(desk=desk, partner=partner, side="them", what="pots", quantity=60, due=DAY, made_on=DAY)
    lines = [Line(description="pots", quantity=20, promise=pots)]
    receive(desk=desk, source="partner", partner=partner, day=DAY, form="goods", lines=lines)
    letter = keep_words(desk=desk, document="leave-behind", title="Sheet", words={}, language="en", partner=partner)
    gone_out(desk=desk, letter=letter, state="handed_over", day=DAY, pdf=b"%PDF-1.7 x")
    make_line(desk, "gifts.accept")
    make_line(desk, "gifts.hand-in")
    return desk


# Kind of row, which of them, the column, a value that does not follow from the record, and what is said.
FALSIFIED = [
    ("follow_ups", {}, {"due": DAY}, "followup {pk}: due is 2026-10-06, should be 2026-10-13"),
    ("asks", {}, {"look_on": DAY}, "ask {pk}: look_on is 2026-10-06, should be 2026-10-13"),
    ("promises", {"by_rhythm": True}, {"due": DAY}, "promise {pk}: due is 2026-10-06, should be 2026-10-13"),
    ("thanks", {"base": DAY}, {"due": DAY}, "thanks {pk}: due is 2026-10-06, should be 2026-10-13"),
    ("thanks", {"base": DAY}, {"late_from": DAY}, "thanks {pk}: late_from is 2026-10-06, should be 2026-10-21"),
    ("gifts", {"accept_due__isnull": False}, {"accept_due": DAY + timedelta(days=1)},
     "gift {pk}: accept_due is 2026-10-07, should be 2026-10-06"),
    ("gifts", {"form": "money"}, {"hand_in_due": DAY + timedelta(days=1)},
     "gift {pk}: hand_in_due is 2026-10-07, should be 2026-10-06"),
    ("partners", {"name": "Riverbend"}, {"name_key": "x"}, "partner {pk}: name_key is 'x', should be 'riverbend'"),
    ("partners", {"name": "Riverbend"}, {"phone_key": "x"}, "partner {pk}: phone_key is 'x', should be '+12015550110'"),
    ("partners", {"name": "Riverbend"}, {"address_key": ""}, "partner {pk}: address_key is '', should be "),
    ("partners", {"name": "Riverbend"}, {"web_key": ""}, "partner {pk}: web_key is '', should be "),
    ("partners", {"name": "Riverbend"}, {"people_key": ""},
     "partner {pk}: people_key is '', should be 'dana whitlock'"),
    ("partners", {"name": "Riverbend"}, {"last_heard_on": None},
     "partner {pk}: last_heard_on is None, should be 2026-10-06"),
    ("contacts", {}, {"name_key": "x"}, "contact {pk}: name_key is 'x', should be 'dana whitlock'"),
    ("promises", {"what": "pots"}, {"delivered": 25}, "promise {pk}: delivered is 25, should be 20"),
    ("asks", {}, {"look_on": None}, "ask {pk}: waiting with neither follow-up nor day to look after it"),
    ("sheets", {}, {"sha256": "0" * 64}, "sheet {pk}: sha256 is 000"),
]  # fmt: skip


def test_a_book_written_by_verbs_is_sound(book: Desk) -> None:
    assert differences(book.program) == []


@pytest.mark.parametrize(("kind", "which", "falsely", "said"), FALSIFIED, ids=lambda value: "-".join(value))
def test_a_fact_that_does_not_follow_is_named(
    book: Desk, kind: str, which: dict[str, object], falsely: dict[str, object], said: str
) -> None:
    row = getattr(book, kind).get(**which)
    getattr(book, kind).filter(pk=row.pk).update(**falsely)
    (found,) = differences(book.program)
    assert found.startswith(said.format(pk=row.pk))


def test_an_ask_with_both_a_follow_up_and_a_day_is_named(book: Desk) -> None:
    ask = book.asks.get()
    book.follow_ups.update(ask=ask)
    said = f"ask {ask.pk}: waiting with both a follow-up and a day to look after it"
    assert differences(book.program) == [said]


def test_a_standing_offer_without_its_next_collection_is_named(book: Desk) -> None:
    book.promises.filter(by_rhythm=True).update(settled_on=DAY, settled_how="skipped")
    said = f"offer {book.offers.get().pk}: 0 collections are called up, should be 1"
    assert differences(book.program) == [said]


def test_a_gift_that_owes_no_thanks_is_named(book: Desk) -> None:
    owed = book.thanks.first()
    gift = owed.gift_id
    owed.delete()
    assert differences(book.program) == [f"gift {gift}: no thanks are owed or said"]


def test_each_line_of_what_is_due_comes_from_a_sound_book(desk: Desk) -> None:
    for slug in sorted(MAKERS):
        make_line(desk, slug)
    assert differences(desk.program) == []


def test_the_command_names_what_differs_and_fails(book: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    call_command("check_book")
    book.promises.filter(what="pots").update(delivered=25)
    with pytest.raises((CommandError, SystemExit)):
        call_command("check_book")
    said = capsys.readouterr()
    assert "delivered is 25, should be 20" in said.out + said.err


def test_a_second_program_is_checked_by_itself(book: Desk) -> None:
    other = people.make_program("Stone Quay Art")
    people.make_partner(other, last_heard_on=date(2026, 1, 1))
    assert differences(book.program) == []
    assert len(differences(other)) == 1
