"""Schools and their calendars; classes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.program.desk import Desk
from partners.school.class_counts import keep_last_year
from partners.school.count_models import ClassCount
from partners.school.models import ClosureKind, LostLesson, School, SchoolClass, SchoolDays


@dataclass(frozen=True)
class ClassLine:
    """A class as a list names it. `values` holds what the list says; the rest of a class that is known stays."""

    school: School
    label: str
    values: dict[str, Any] = field(default_factory=dict)


def add_school(*, desk: Desk, name: str, **values: Any) -> School:
    with change(desk, gettext_noop("School %(name)s added"), name=name) as book:
        return book.add(School(name=name, **values))


def edit_school(*, desk: Desk, school: School, seen: int | None = None, **values: Any) -> School:
    with change(desk, gettext_noop("School %(name)s changed"), name=school.name) as book:
        return book.update(school, seen=seen, **values)


def add_days(
    *, desk: Desk, school: School, first: date, last: date, kind: str = ClosureKind.CLOSED, title: str = ""
) -> SchoolDays:
    """Close days, or name a school year. Dates that were counted over them are moved by agenda.redate."""
    with change(desk, gettext_noop("Calendar of %(school)s: %(title)s"), school=school, title=title or first) as book:
        return book.add(SchoolDays(school=school, first=first, last=last, kind=kind, title=title))


def same_days(*, desk: Desk, school: School, other: School) -> None:
    """All days of another school's calendar, for a school that has none."""
    with change(desk, gettext_noop("Calendar of %(school)s taken over"), school=school) as book:
        kept = other.school_days.values("first", "last", "kind", "title")
        book.add_many([SchoolDays(school=school, **days) for days in kept])


def remove_days(*, desk: Desk, days: SchoolDays) -> None:
    with change(desk, gettext_noop("Taken out of the calendar: %(days)s"), days=days) as book:
        book.remove(days)


def add_class(
    *,
    desk: Desk,
    school: School,
    label: str,
    grade: int,
    students: int,
    meets_on: Sequence[int] = (),
    minutes: int | None = None,
) -> SchoolClass:
    with change(desk, gettext_noop("Class %(label)s added"), label=label) as book:
        keep_last_year(book, desk, [school])
        row = SchoolClass(school=school, label=label, grade=grade, students=students, minutes=minutes)
        row.meets_on = list(meets_on)
        return book.add(row)


def save_classes(*, desk: Desk, lines: Sequence[ClassLine]) -> tuple[int, int]:
    """A whole list of classes, each added or, where its school has one of that label, changed.

    Returns how many were added and how many were changed; those that stand so already are neither.
    """
    with change(desk, gettext_noop("%(count)s classes saved from a list"), count=len(lines)) as book:
        stored = {(row.school_id, row.label): row for row in desk.classes}
        changed = 0
        keep_last_year(book, desk, {line.school.pk: line.school for line in lines}.values())
        new = [line for line in lines if (line.school.pk, line.label) not in stored]
        book.add_many([SchoolClass(school=line.school, label=line.label, **line.values) for line in new])
        added = len(new)
        for line in lines:
            row = stored.get((line.school.pk, line.label))
            if row is not None and any(getattr(row, name) != value for name, value in line.values.items()):
                book.update(row, **line.values)
                changed += 1
        if added or changed:
            book.about(lines[0].school)
        return added, changed


def edit_class(*, desk: Desk, school_class: SchoolClass, seen: int | None = None, **values: Any) -> SchoolClass:
    with change(desk, gettext_noop("Class %(label)s changed"), label=school_class.label) as book:
        if "students" in values:
            keep_last_year(book, desk, [school_class.school])
        return book.update(school_class, seen=seen, **values)


def remove_class(*, desk: Desk, school_class: SchoolClass) -> None:
    with change(desk, gettext_noop("Class %(label)s taken out"), label=school_class.label) as book:
        keep_last_year(book, desk, [school_class.school])
        book.remove(school_class)


def correct_count(*, desk: Desk, count: ClassCount, seen: int | None = None, **values: Any) -> ClassCount:
    """What was kept of a past school year is what stood in the book, which may not be what there was."""
    words = gettext_noop("%(school)s: students of %(year)s corrected")
    with change(desk, words, school=count.school, year=count.called) as book:
        return book.update(count, seen=seen, **values)


def add_lost_lessons(
    *,
    desk: Desk,
    school: School,
    first: date,
    last: date,
    title: str = "",
    school_class: SchoolClass | None = None,
    grade: int | None = None,
) -> LostLesson:
    """School is open and these classes have no art. Without a class or a grade that goes for all of them."""
    named = title or first
    with change(desk, gettext_noop("Lost lessons at %(school)s: %(title)s"), school=school, title=named) as book:
        row = LostLesson(school=school, first=first, last=last, title=title, school_class=school_class, grade=grade)
        return book.add(row)


def remove_lost_lessons(*, desk: Desk, lost: LostLesson) -> None:
    with change(desk, gettext_noop("Lessons take place after all: %(lost)s"), lost=lost) as book:
        book.remove(lost)
