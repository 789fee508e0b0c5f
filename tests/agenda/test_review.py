"""The monthly review: its groups, the words around a line, what stays of a settled one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda import review as review_page
from partners.agenda.lines import OF_MONEY, SOURCES, Place, due_lines
from partners.agenda.review import review
from partners.agenda.shown import last_words
from partners.gifts.actions import receive
from partners.ground.due import Hand
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Role
from partners.visits.actions import record_visit
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
REVIEW = "agenda:review"


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def settle(client: Client, slug: str, pk: int, act: str = "done", day: str = "") -> None:
    client.post(reverse("agenda:settle", args=[slug, pk]), {"act": act, "day": day})


def settle_many(client: Client, slug: str, rows: list[Any], act: str, day: str = "") -> None:
    keys = [f"{slug.replace('.', '-')}-{row.pk}" for row in rows]
    client.post(reverse("agenda:settle-many"), {"line": keys, "do": act, "day": day})


def shown(context: dict[str, Any]) -> dict[str, list[tuple[str, str]]]:
    """Each group's lines: key, and the words of how it was settled."""
    return {str(group.hand): [(line.key, line.settled) for line in group.lines] for group in context["groups"]}


def test_lines_stand_by_what_hands_do_in_the_order_of_hands(own: Desk) -> None:
    one_of_each = {source.hand: source for source in SOURCES}
    for source in reversed(one_of_each.values()):
        make_line(own, source)
    make_line(own, "promises.theirs", date(2026, 11, 2))
    assert [group.hand for group in review(own)["groups"]] == [*Hand, "next"]


def test_it_ends_with_the_month_and_shows_the_next_one_to_read(own: Desk) -> None:
    last, first, far = (make_line(own, "promises.ours", day) for day in (
        date(2026, 10, 31), date(2026, 11, 1), date(2026, 12, 1)
    ))  # fmt: skip
    assert shown(review(own)) == {
        "make": [(f"promises-ours-{last.pk}", "")],
        "next": [(f"promises-ours-{first.pk}", "")],
    }
    assert [group.read_only for group in review(own)["groups"]] == [False, True]
    assert far.due == date(2026, 12, 1)


def test_a_settled_line_stays_that_day_and_not_the_next(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "promises.ours")
    settle(signed_in, "promises.ours", row.pk)
    assert shown(review(own)) == {"make": [(f"promises-ours-{row.pk}", "Handed over")]}
    page = signed_in.get(reverse(REVIEW)).content.decode()
    assert f'<tr class="due settled"\n    id="line-promises-ours-{row.pk}"' in page
    with time_machine.travel("2026-10-07 07:00 -0400", tick=False):
        assert shown(review(people.make_desk(own.program, day=DAY + timedelta(days=1)))) == {}


def test_the_tally_says_how_many_were_settled_and_moved(signed_in: Client, own: Desk) -> None:
    rows = [make_line(own, "promises.ours") for _ in range(35)]
    settle_many(signed_in, "promises.ours", rows[:31], "done")
    settle_many(signed_in, "promises.ours", rows[31:], "move", "2026-10-30")
    assert review(own)["tally"] == "31 settled, 4 moved"
    assert "31 settled, 4 moved" in signed_in.get(reverse(REVIEW)).content.decode()
    assert review(own)["through"] == ""


def test_when_nothing_is_left_of_the_month_the_page_says_so(signed_in: Client, own: Desk) -> None:
    settle(signed_in, "promises.ours", make_line(own, "promises.ours").pk)
    assert "Nothing more is due through October 31, 2026." in signed_in.get(reverse(REVIEW)).content.decode()


def test_nothing_settled_yet_is_said_kindly(own: Desk) -> None:
    assert review(own)["tally"] == "Nothing settled yet today."


def test_a_line_moved_and_then_settled_stands_once(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "promises.ours")
    settle(signed_in, "promises.ours", row.pk, "move", "2026-10-20")
    settle(signed_in, "promises.ours", row.pk)
    assert shown(review(own)) == {"make": [(f"promises-ours-{row.pk}", "Handed over")]}
    assert review(own)["tally"] == "1 settled"


def test_a_line_moved_within_the_month_stands_once_on_its_new_day(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "promises.ours")
    settle(signed_in, "promises.ours", row.pk, "move", "2026-10-20")
    assert shown(review(own)) == {"make": [(f"promises-ours-{row.pk}", "")]}
    assert review(own)["tally"] == "1 moved"


def test_a_line_moved_to_next_month_is_struck_through_and_stands_there_without_an_id(
    signed_in: Client, own: Desk
) -> None:
    row = make_line(own, "promises.ours")
    settle(signed_in, "promises.ours", row.pk, "not_this_month")
    key = f"promises-ours-{row.pk}"
    assert shown(review(own)) == {"make": [(key, "Moved to November 2")], "next": [(key, "")]}
    assert signed_in.get(reverse(REVIEW)).content.decode().count(f'id="line-{key}"') == 1


def test_undo_opens_the_line_again_and_takes_it_from_the_tally(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "promises.ours")
    settle(signed_in, "promises.ours", row.pk)
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert shown(review(own)) == {"make": [(f"promises-ours-{row.pk}", "")]}
    assert review(own)["tally"] == "Nothing settled yet today."


def test_settled_lines_of_another_school_are_not_shown_to_a_teacher_of_one(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "gifts.accept")
    settle(signed_in, "gifts.accept", row.pk)
    north = people.make_school(own.program, "North Ridge Elementary")
    assert "ask" in shown(review(own))
    assert "ask" not in shown(review(people.make_desk(own.program, school_ids=frozenset({north.pk}))))


def test_pages_hold_every_line_once_and_each_settled_one_where_it_stood(
    signed_in: Client, own: Desk, monkeypatch: Any
) -> None:
    monkeypatch.setattr(review_page, "PAGE", 3)
    rows = [make_line(own, "promises.ours", DAY - timedelta(days=9 - n)) for n in range(7)]
    for row in (rows[1], rows[5]):
        settle(signed_in, "promises.ours", row.pk)
    keys = [f"promises-ours-{row.pk}" for row in rows]
    first = review(own)
    assert [key for key, _settled in shown(first)["make"]] == keys[:4]
    second = review(own, Place.read(first["after"].removeprefix("?after=")))
    assert [key for key, _settled in shown(second)["make"]] == keys[4:]
    assert second["after"] == ""
    page = signed_in.get(reverse(REVIEW) + first["after"]).content.decode()
    assert f'id="line-{keys[6]}"' in page
    assert f'id="line-{keys[0]}"' not in page


def test_who_has_gone_quiet_does_not_push_what_is_due_off_the_first_page(own: Desk, monkeypatch: Any) -> None:
    monkeypatch.setattr(review_page, "PAGE", 2)
    for _n in range(4):
        make_line(own, "directory.quiet")
    make_line(own, "gifts.thanks")
    assert [str(group.hand) for group in review(own)["groups"]] == ["write", "quiet"]


@pytest.mark.parametrize(
    ("day", "late"),
    [("2026-10-02", "2 school days late"), ("2026-10-03", "2 school days late"), ("2026-10-05", "1 school day late"),
     ("2026-10-06", ""), ("2026-10-07", "")],
)  # fmt: skip
def test_lateness_is_counted_in_school_days(own: Desk, day: str, late: str) -> None:
    make_line(own, "promises.ours", date.fromisoformat(day))
    assert review(own)["groups"][0].lines[0].late == late


def test_who_has_gone_quiet_is_not_late(own: Desk) -> None:
    make_line(own, "directory.quiet")
    assert [line.late for line in review(own)["groups"][0].lines] == [""]


def test_a_resting_partner_is_never_named_quiet(own: Desk) -> None:
    partner = make_line(own, "directory.quiet")
    own.partners.filter(pk=partner.pk).update(rest_until=DAY + timedelta(days=1))
    assert shown(review(own)) == {}


def test_the_last_word_is_the_newest_visit(own: Desk) -> None:
    partner = people.make_partner(own.program)
    for day, note in ((DAY, "Dana asks for a picture."), (DAY - timedelta(days=1), "older")):
        record_visit(desk=own, partner=partner, happened="hello", day=day, note=note)
    assert last_words(own, [partner.pk]) == {partner.pk: "October 6, Just hello: Dana asks for a picture."}


def test_the_last_word_of_another_year_names_it(own: Desk) -> None:
    partner = people.make_partner(own.program)
    record_visit(desk=own, partner=partner, happened="hello", day=date(2025, 11, 6))
    assert last_words(own, [partner.pk]) == {partner.pk: "November 6, 2025, Just hello"}


def test_it_says_through_which_day_and_of_which_day_it_is(signed_in: Client, own: Desk) -> None:
    said = "What is due through October 31, 2026, as it stands on October 6."
    assert said in signed_in.get(reverse(REVIEW)).content.decode()


def test_guests_read_the_last_word_without_the_note(own: Desk, grace: Membership) -> None:
    partner = people.make_partner(own.program)
    record_visit(desk=own, partner=partner, happened="hello", day=DAY, note="Dana asks for a picture.")
    guest = people.make_desk(own.program, role=Role.GUEST, opened=frozenset({Opened.TODAY}))
    assert last_words(guest, [partner.pk]) == {partner.pk: "October 6, Just hello (June)"}


def test_a_guest_finds_neither_ticks_nor_buttons(client: Client, own: Desk, grace: Membership) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.TODAY])
    make_line(own, "promises.ours")
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    page = client.get(reverse(REVIEW)).content.decode()
    assert "Make" in page
    assert not [part for part in ('type="checkbox"', 'name="act"', 'name="do"') if part in page]


def test_a_guest_reads_of_receipts_only_where_the_money_is_opened(own: Desk) -> None:
    slug = next(iter(sorted(OF_MONEY)))
    make_line(own, slug)
    for opened, found in ({Opened.TODAY}, []), ({Opened.TODAY, Opened.MONEY}, [slug]):
        guest = people.make_desk(own.program, role=Role.GUEST, opened=frozenset(opened))
        lines = due_lines(guest, until=date.max, limit=9)
        assert [line.source for line in lines if line.source in OF_MONEY] == found


def test_a_guest_to_whom_it_is_not_opened_is_refused(client: Client, grace: Membership) -> None:
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse(REVIEW)).status_code == 403
    assert client.get(reverse("agenda:today"))["Location"] == reverse("directory:partner-list")


def test_a_guest_is_led_only_to_pages_that_are_open(own: Desk) -> None:
    partner = make_line(own, "promises.ours").partner
    for opened, leads in ({Opened.TODAY}, ""), ({Opened.TODAY, Opened.PARTNERS}, partner.get_absolute_url()):
        guest = people.make_desk(own.program, role=Role.GUEST, opened=frozenset(opened))
        assert [line.who_url for group in review(guest)["groups"] for line in group.lines] == [leads]


def test_the_last_word_says_whose_visit_it_was_if_a_colleagues(own: Desk, omar: Membership) -> None:
    partner = people.make_partner(own.program)
    theirs = people.make_desk(own.program, user=omar.user, role=Role.TEACHER)
    record_visit(desk=theirs, partner=partner, day=DAY, how="in_person", happened="hello", note="Likes fish.")
    assert last_words(own, [partner.pk])[partner.pk] == "October 6, Just hello (Omar): Likes fish."
    assert last_words(theirs, [partner.pk])[partner.pk] == "October 6, Just hello: Likes fish."


def test_an_empty_book_is_told_so(signed_in: Client) -> None:
    assert "Everything is settled. Nothing waits." in signed_in.get(reverse(REVIEW)).content.decode()


@pytest.mark.parametrize("after", ["x", "2026-10-06.99.1", "2026-10-06.1.999999999999999999", "9999-12-31.0.0"])
def test_any_address_of_a_page_opens(signed_in: Client, own: Desk, after: str) -> None:
    make_line(own, "promises.ours")
    assert signed_in.get(reverse(REVIEW), {"after": after}).status_code == 200


def test_a_guest_reads_amounts_only_where_gifts_or_money_are_opened(own: Desk) -> None:
    given = {"source": "partner", "partner": "Second Street Credit Union", "day": DAY, "money_kind": "cash"}
    receive(desk=own, form="money", amount_cents=30_000, **given)
    for opened, shown in (set(), False), ({Opened.GIFTS}, True), ({Opened.MONEY}, True):
        guest = people.make_desk(own.program, role=Role.GUEST, opened=frozenset({Opened.TODAY, *opened}))
        lines = due_lines(guest, until=date.max, limit=9)
        assert any("$300" in f"{line.what} {line.why}" for line in lines) is shown


def test_whoever_is_asked_about_a_gift_does_not_get_the_givers_last_word(own: Desk) -> None:
    thanks, gift = make_line(own, "gifts.thanks"), make_line(own, "gifts.accept")
    for one in (thanks, gift):
        record_visit(desk=own, partner=one.partner, day=DAY, how="in_person", happened="hello", note="Likes fish.")
    lines = {line.key: line.last_word for group in review(own)["groups"] for line in group.lines}
    assert "Likes fish." in lines[f"gifts-thanks-{thanks.pk}"]
    assert lines[f"gifts-accept-{gift.pk}"] == ""


def test_a_tick_stands_for_all_sums_of_one_office_and_each_stays_struck_through(signed_in: Client, own: Desk) -> None:
    rows = [make_line(own, "gifts.hand-in") for _n in range(2)]
    (line,) = review(own)["groups"][-1].lines
    assert line.keys.split() == [f"gifts-hand-in-{row.pk}" for row in rows]
    signed_in.post(reverse("agenda:settle-many"), {"line": line.keys, "do": "done"})
    settled = review(own)["groups"][-1].lines
    assert [(one.settled, one.in_place, one.along) for one in settled] == [("Handed in", False, True)] * 2
