"""The list of what is due, against the same list worked out row by row."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partners.agenda.hands import count_by_hand, sources_of
from partners.agenda.lines import (
    BUT_QUIET,
    SOURCES,
    Place,
    Placed,
    Stretch,
    due_in_stretches,
    due_lines,
    due_rows,
    place_of,
)
from partners.ground.due import DueLine, Hand
from partners.program.desk import Desk
from tests import people
from tests.agenda.oracle import due_list, months_before
from tests.agenda.random_books import BOOKS, DAY, some_books, taken_back, write

QUIET = tuple(source for source in SOURCES if source not in BUT_QUIET)
pytestmark = pytest.mark.django_db


@some_books
def test_the_due_list_is_what_every_row_says(books: int) -> None:
    settings(max_examples=books)(assert_is_what_every_row_says)()


@given(told=BOOKS, ahead=st.integers(-5, 30), size=st.sampled_from([1, 2, 3, 7, 60]), limited=st.booleans())
def assert_is_what_every_row_says(told: dict[str, Any], ahead: int, size: int, limited: bool) -> None:
    with taken_back():
        program, _other = write(told)
        schools = frozenset(program.schools.values_list("pk", flat=True)[:1]) if limited else frozenset()
        desk = Desk(program=program, day=DAY, school_ids=schools)
        until = DAY + timedelta(days=ahead)
        expected = due_list(program, DAY, until, schools)
        found = due_lines(desk, until=until, limit=1000)
        assert sorted((line.key, line.due, line.hand) for line in found) == sorted(expected)
        assert [line.due for line in found] == [one.due for one in expected]
        assert keys_page_by_page(desk, until, size) == [line.key for line in found]
        for cap in (1, size, 1000):
            assert len(due_rows(desk, until=until, limit=cap)) == min(cap, len(expected))
        assert_stretches_are_pages(desk, until, size)
        assert_hands_share_the_lines(desk, until, found)


def assert_hands_share_the_lines(desk: Desk, until: date, found: list[DueLine]) -> None:
    counts = count_by_hand(desk, until)
    for hand in Hand:
        own = [line.key for line in due_lines(desk, until=until, limit=1000, sources=sources_of(hand, desk.day))]
        assert own == [line.key for line in found if line.hand is hand]
        assert counts.get(hand, (0, False)) == (len(own), False)
    whole: dict[str, list[Placed]] = {}
    due_in_stretches(desk, [Stretch(until, 3)], whole=whole)
    assert count_by_hand(desk, until, whole) == counts


def assert_stretches_are_pages(desk: Desk, until: date, size: int) -> None:
    """What is read in stretches is what a page of its own finds, also where a page began in the middle."""
    first = due_rows(desk, until=until, limit=size)
    quiet = due_rows(desk, until=until, limit=1, sources=QUIET)
    for after in (None, *(place_of(one.line(DAY)) for one in (*first[-1:], *quiet))):
        days = [until, until + timedelta(days=4), until + timedelta(days=30)]
        found = due_in_stretches(desk, [Stretch(days[0], size), Stretch(days[1], 3), Stretch(days[2], 1)], after=after)
        assert found[0] == due_rows(desk, until=until, limit=size, after=after)
        for before, day, limit, rows in zip(days, days[1:], (3, 1), found[1:], strict=False):
            behind = due_rows(desk, until=day, limit=limit, after=Place.through(before), sources=BUT_QUIET)
            assert [one for one in rows if one.source in BUT_QUIET] == behind
        spared = [Stretch(days[0], size), Stretch(days[1], 3, if_room=True), Stretch(days[2], 1)]
        room = len(found[0]) < size
        assert due_in_stretches(desk, spared, after=after) == [found[0], found[1] if room else [], found[2]]


def keys_page_by_page(desk: Desk, until: Any, size: int) -> list[str]:
    keys: list[str] = []
    after: Place | None = None
    while page := due_lines(desk, until=until, limit=size, after=after):
        assert len(page) <= size
        keys += [line.key for line in page]
        assert len(keys) <= 1000, "The pages go round in a ring."
        after = Place.read(str(place_of(page[-1])))
    return keys


def test_a_page_goes_on_where_it_ended_when_lines_were_settled_meanwhile(desk: Desk) -> None:
    partner = people.make_partner(desk.program)
    rows = [desk.follow_ups.create(program=desk.program, partner=partner, what="x", due=DAY, base=DAY) for _ in "abcd"]
    first = due_lines(desk, until=DAY, limit=2)
    desk.follow_ups.filter(pk=rows[0].pk).update(done_on=DAY)
    second = due_lines(desk, until=DAY, limit=2, after=place_of(first[-1]))
    assert [line.pk for line in second] == [rows[2].pk, rows[3].pk]


@pytest.mark.parametrize("text", ["", "x", "2026-10-06", "2026-13-06.1.1", "2026-10-06.1.-5", "2026-10-06.1.1.1"])
def test_an_address_that_names_no_place_begins_at_the_start(text: str) -> None:
    assert Place.read(text) is None


@pytest.mark.parametrize(
    ("day", "months", "before"),
    [("2026-03-31", 1, "2026-02-28"), ("2024-03-31", 1, "2024-02-29"), ("2026-10-06", 12, "2025-10-06"),
     ("2026-05-31", 6, "2025-11-30")],
)  # fmt: skip
def test_the_oracle_counts_months_as_a_calendar_does(day: str, months: int, before: str) -> None:
    assert months_before(date.fromisoformat(day), months).isoformat() == before
