"""Classes, and lessons they lose: with them the days change on which classes begin with what was promised."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from django.utils.translation import gettext_noop

from partners.agenda.redate import redate
from partners.ground.changes import change
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.school import actions as school_actions
from partners.school.actions import ClassLine
from partners.school.models import LostLesson, School, SchoolClass

IN_A_PROJECT = gettext_noop("%(label)s takes part in a project. Take it out there first.")
IN_A_TRADE = gettext_noop(
    "Class %(label)s takes part in a trade, so it stays in the book. Take it out of the trade first."
)
HAS_LOST_LESSONS = gettext_noop("Lost lessons of class %(label)s are entered. Take them out first.")


def add_class(*, desk: Desk, school: School, **values: Any) -> tuple[SchoolClass, int]:
    """Returns it and how many dates moved."""
    with change(desk, gettext_noop("Class %(label)s added"), label=values["label"]) as book:
        school_class = school_actions.add_class(desk=desk, school=school, **values)
        return school_class, redate(book, desk)


def edit_class(*, desk: Desk, school_class: SchoolClass, seen: int | None = None, **values: Any) -> int:
    """Returns how many dates moved."""
    with change(desk, gettext_noop("Class %(label)s changed"), label=school_class.label) as book:
        school_actions.edit_class(desk=desk, school_class=school_class, seen=seen, **values)
        return redate(book, desk)


def remove_class(*, desk: Desk, school_class: SchoolClass) -> bool:
    """Whether it is gone: where old trades name it, its row stays for them, without students.

    Raises PlainError where something stands on it that goes on.
    """
    trades = desk.program.trades.filter(classes__school_class=school_class)
    if trades.with_something_open().exists():
        raise PlainError("in_a_trade", IN_A_TRADE, label=school_class.label)
    if desk.program.project_classes.filter(school_class=school_class).exists():
        raise PlainError("in_a_project", IN_A_PROJECT, label=school_class.label)
    if desk.lost_lessons.filter(school_class=school_class).exists():
        raise PlainError("has_lost_lessons", HAS_LOST_LESSONS, label=school_class.label)
    if trades.exists():
        school_actions.edit_class(desk=desk, school_class=school_class, students=0)
        return False
    school_actions.remove_class(desk=desk, school_class=school_class)
    return True


def save_classes(
    *, desk: Desk, lines: Sequence[ClassLine], gone: Iterable[SchoolClass] = ()
) -> tuple[int, int, int, int]:
    """Returns how many classes were added, changed and taken out, and how many dates moved."""
    with change(desk, gettext_noop("%(count)s classes saved from a list"), count=len(lines)) as book:
        added, changed = school_actions.save_classes(desk=desk, lines=lines)
        leaving = list(gone)
        for school_class in leaving:
            remove_class(desk=desk, school_class=school_class)
        return added, changed, len(leaving), redate(book, desk)


def lose_lessons(*, desk: Desk, school: School, **values: Any) -> tuple[LostLesson, int]:
    """Returns the row and how many dates moved."""
    title = values.get("title") or values["first"]
    with change(desk, gettext_noop("Lost lessons at %(school)s: %(title)s"), school=school, title=title) as book:
        lost = school_actions.add_lost_lessons(desk=desk, school=school, **values)
        book.about(school)
        return lost, redate(book, desk)


def give_back_lessons(*, desk: Desk, lost: LostLesson) -> int:
    """Returns how many dates moved."""
    with change(desk, gettext_noop("Lessons take place after all: %(lost)s"), lost=lost) as book:
        school_actions.remove_lost_lessons(desk=desk, lost=lost)
        book.about(lost.school)
        return redate(book, desk)
