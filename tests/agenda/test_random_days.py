"""Random days in a book, by its verbs: whatever is done and taken back, every stored fact follows from the record."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partners.agenda import actions
from partners.agenda.check_book import differences
from partners.agenda.lines import BY_SLUG, due_lines
from partners.asking.actions import log_visit
from partners.asking.said import Said
from partners.ground.models import Event
from partners.ground.undo import CannotUndo
from partners.program.desk import Desk
from partners.promises.actions import end_offer
from tests import people
from tests.agenda import more_books
from tests.agenda.books import MAKERS, make_line
from tests.agenda.oracle import due_list
from tests.agenda.random_books import some_books, taken_back

pytestmark = pytest.mark.django_db
small = st.integers(0, 9)
STEPS = st.lists(st.tuples(st.integers(0, 9), small, small, small), min_size=4, max_size=14)
# Lines that the oracle works out; it knows nothing of projects and of money.
TOLD = sorted(MAKERS.keys() - more_books.MAKERS.keys())
HAPPENED = ["yes", "some", "maybe", "no", "away", "offered", "hello"]


def pick(rows: Any, n: int) -> Any:
    found = list(rows)
    return found[n % len(found)] if found else None


def visit(desk: Desk, a: int, b: int, c: int) -> None:
    said = Said(
        where=pick(desk.partners, a), happened=HAPPENED[b % 7], day=desk.day - timedelta(days=c), what=f"thing {c % 3}",
        quantity=c or None, school=pick(desk.schools, c), every=["", "week", "month"][c % 3], sheet_left=c % 2 == 0,
    )  # fmt: skip
    log_visit(desk=desk, said=said)


def settle(desk: Desk, a: int, b: int, _c: int) -> None:
    """Press some button of some line, as the page of what is due offers it."""
    line = pick(due_lines(desk, until=desk.day + timedelta(days=40), limit=30), a)
    if line is None:
        return
    act = pick([one for one in line.acts if not one.opens], b)
    if act is None:
        return
    chosen = [actions.Chosen(BY_SLUG[line.source], line, str(act.label))]
    actions.settle(desk=desk, chosen=chosen, act=act.code, label="", to=desk.day + timedelta(days=b + 1))


def close(desk: Desk, a: int, b: int, c: int) -> None:
    first = desk.day + timedelta(days=a)
    stretch = (first, first + timedelta(days=b), "closed", "")
    actions.close_days(desk=desk, school=pick(desk.schools, c), stretches=[stretch])


def open_again(desk: Desk, a: int, _b: int, _c: int) -> None:
    days = pick(desk.school_days.select_related("school"), a)
    if days is not None:
        actions.open_days(desk=desk, days=days)


def other_figures(desk: Desk, a: int, b: int, c: int) -> None:
    figures = {"follow_up_days": a + 1, "last_follow_up_days": b + 7, "thank_within": c, "thank_late": c + b}
    actions.edit_program(desk=desk, **figures)


def other_weekdays(desk: Desk, a: int, b: int, _c: int) -> None:
    actions.edit_school(desk=desk, school=pick(desk.schools, b), weekdays=sorted({a % 5, b % 5, 4}))


def another_line(desk: Desk, a: int, b: int, c: int) -> None:
    slug = TOLD[(a + b) % len(TOLD)]
    make_line(desk, slug, desk.day + timedelta(days=c - 4), pick(desk.partners, a))


def take_back(desk: Desk, a: int, _b: int, _c: int) -> None:
    """Some late change; where later ones stand on it, it stays."""
    event = pick(desk.program.events.order_by("-pk")[:4], a)
    if event is not None:
        try:
            actions.take_back(desk=desk, event=event)
        except CannotUndo:
            assert Event.objects.filter(pk=event.pk).exists()


def no_more(desk: Desk, a: int, _b: int, _c: int) -> None:
    offer = pick(desk.offers.filter(ended_on=None), a)
    if offer is not None:
        end_offer(desk=desk, offer=offer, day=desk.day)


def a_school_more(desk: Desk, a: int, _b: int, _c: int) -> None:
    if desk.schools.count() < 3:
        actions.add_school(desk=desk, name=f"School {Event.objects.count()}")


DEEDS: list[Callable[[Desk, int, int, int], None]] = [
    visit, settle, close, open_again, other_figures, other_weekdays, another_line, take_back, no_more, a_school_more,
]  # fmt: skip


@some_books
def test_whatever_is_done_the_book_stays_sound(books: int) -> None:
    settings(max_examples=books)(assert_stays_sound)()


@given(steps=STEPS)
def assert_stays_sound(steps: list[tuple[int, int, int, int]]) -> None:
    with taken_back():
        program = people.make_program()
        for name in ("Millrace", "North Ridge"):
            people.make_school(program, name)
        desk = people.make_desk(program)
        for name in ("One", "Two"):
            people.make_partner(program, name)
        for passed, (deed, a, b, c) in enumerate(steps):
            later = replace(people.make_desk(program), day=desk.day + timedelta(days=passed))
            later.program.refresh_from_db()
            DEEDS[deed](later, a, b, c)
            assert differences(program) == []
        day = desk.day + timedelta(days=len(steps))
        until = date(2027, 12, 31)
        found = due_lines(replace(desk, day=day), until=until, limit=1000)
        program.refresh_from_db()
        assert sorted((line.key, line.due) for line in found) == sorted(
            one[:2] for one in due_list(program, day, until)
        )
