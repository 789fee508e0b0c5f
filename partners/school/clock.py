"""The school calendars of a program, from what was entered."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from partners.ground.kept_queries import kept_rows
from partners.program.models import Program
from partners.school.calendar import SchoolCalendar, together
from partners.school.closures import days_between, gaps
from partners.school.cycle import Cycle, cycle_day
from partners.school.models import ClosureKind, School


def calendars(program: Program) -> dict[int, SchoolCalendar]:
    """Each school's calendar by the school's id, in two queries."""
    closed: dict[int, set[date]] = defaultdict(set)
    years: dict[int, list[tuple[date, date]]] = defaultdict(list)
    for school_id, kind, first, last in _days(program):
        if kind == ClosureKind.YEAR:
            years[school_id].append((first, last))
        else:
            closed[school_id].update(days_between(first, last))
    return {
        school_id: SchoolCalendar(closed[school_id] | set(gaps(years[school_id])), tuple(weekdays))
        for school_id, weekdays in _weekdays(program)
    }


def _days(program: Program) -> list[Any]:
    columns = "school_id", "kind", "first", "last"
    return kept_rows(("school days", program.pk), {}, lambda _none: program.school_days.values_list(*columns))


def _weekdays(program: Program) -> list[Any]:
    return kept_rows(("weekdays", program.pk), {}, lambda _none: program.schools.values_list("id", "weekdays"))


def clock(program: Program, school_id: int | None = None) -> SchoolCalendar:
    """The calendar a date is counted on: the school's own, else all the teacher's schools together."""
    known = calendars(program)
    return known[school_id] if school_id in known else together(known.values())


def unplanned_closures(program: Program) -> dict[int, set[date]]:
    """Each school's days lost unexpectedly by the school's id, in one query; a school without any has an empty set."""
    lost: dict[int, set[date]] = defaultdict(set)
    for school_id, kind, first, last in _days(program):
        if kind == ClosureKind.UNPLANNED:
            lost[school_id].update(days_between(first, last))
    return lost


def cycle_of(school: School) -> Cycle | None:
    """The school's rotating cycle; None where it has none, or nobody said yet on which day it began."""
    if not school.cycle_length or school.cycle_from is None:
        return None
    return Cycle(school.cycle_from, school.cycle_length, school.cycle_slips)


def cycle_day_on(
    program: Program, day: date, school_ids: Collection[int], known: Mapping[int, SchoolCalendar]
) -> list[tuple[str, int | None]]:
    """For every school its name and the number of the day in its cycle: 0 without one, None where there is no school.

    Behind the last school year that is entered there is none, although days are counted on for want of the next.
    Only for the schools of `school_ids`, where it names any; `known` is what `calendars` gives.
    """
    unplanned = unplanned_closures(program)
    found: list[tuple[str, int | None]] = []
    ends: dict[int, date] = {}
    for school_id, kind, _first, last in _days(program):
        if kind == ClosureKind.YEAR:
            ends[school_id] = max(last, ends.get(school_id, last))
    for school in program.schools.filter(pk__in=school_ids) if school_ids else program.schools.all():
        cycle, calendar = cycle_of(school), known[school.pk]
        if ends.get(school.pk, day) < day or not calendar.is_school_day(day):
            number = None
        else:
            number = cycle_day(calendar, cycle, day, unplanned[school.pk]) if cycle else 0
        found.append((school.name, number))
    return found
