"""On which days classes really have art: weekdays or cycle days, less closures and the lessons that are lost."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date

from django.db.models import Max, Min

from partners.program.models import Program
from partners.school.calendar import SchoolCalendar
from partners.school.clock import calendars, cycle_of, unplanned_closures
from partners.school.cycle import numbered_days
from partners.school.models import ClosureKind, LostLesson, School, SchoolClass


def class_meetings(
    program: Program, classes: Collection[SchoolClass], first: date, last: date
) -> dict[int, list[date]]:
    """Each class's meetings from `first` through `last`, ascending, by the class's id; six queries for any number.

    `SchoolClass.meets_on` are days of the school's cycle where it has one (1 is its first), else weekdays (0 is
    Monday). A class that does not say when it meets has no meetings, and neither has one whose school's cycle has no
    first day yet. Where school years are entered, nobody meets before the first of them or after the last: a calendar
    knows nothing of those days and takes them for open. A lost lesson is not made up: the cycle goes on over it.
    """
    known, unplanned = calendars(program), unplanned_closures(program)
    schools = program.schools.in_bulk({one.school_id for one in classes})
    years = _years(program)
    days = {}
    for pk, school in schools.items():
        begin, end = years.get(pk, (first, last))
        days[pk] = _days_by_number(school, known[pk], unplanned[pk], max(first, begin), min(last, end))
    lost: dict[int, list[LostLesson]] = defaultdict(list)
    for stretch in program.lost_lessons.filter(school__in=schools, first__lte=last, last__gte=first):
        lost[stretch.school_id].append(stretch)
    return {one.pk: _meetings(one, days[one.school_id], lost[one.school_id]) for one in classes}


def _years(program: Program) -> dict[int, tuple[date, date]]:
    """The first and the last day of all school years that were entered, by the school's id."""
    entered = program.school_days.filter(kind=ClosureKind.YEAR).order_by().values_list("school_id")
    return {pk: (first, last) for pk, first, last in entered.annotate(begin=Min("first"), end=Max("last"))}


def _days_by_number(
    school: School, calendar: SchoolCalendar, unplanned: Collection[date], first: date, last: date
) -> dict[int, list[date]]:
    """The school days of each weekday or cycle day, worked out once for all classes of a school."""
    cycle = cycle_of(school)
    found: dict[int, list[date]] = defaultdict(list)
    if school.cycle_length and cycle is None:
        return found
    for day, number in numbered_days(calendar, first, last, cycle, unplanned):
        found[number].append(day)
    return found


def _meetings(one: SchoolClass, days: Mapping[int, list[date]], lost: Collection[LostLesson]) -> list[date]:
    found = sorted(day for number in set(one.meets_on) for day in days.get(number, ()))
    stretches = [(stretch.first, stretch.last) for stretch in lost if stretch.concerns(one)]
    return [day for day in found if not any(first <= day <= last for first, last in stretches)]
