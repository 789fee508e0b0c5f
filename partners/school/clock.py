"""The school calendars of a program, from what was entered."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

from partners.program.models import Program
from partners.school.calendar import SchoolCalendar, together
from partners.school.closures import days_between, gaps
from partners.school.models import ClosureKind


def calendars(program: Program) -> dict[int, SchoolCalendar]:
    """Each school's calendar by the school's id, in two queries."""
    closed: dict[int, set[date]] = defaultdict(set)
    years: dict[int, list[tuple[date, date]]] = defaultdict(list)
    for school_id, kind, first, last in program.school_days.values_list("school_id", "kind", "first", "last"):
        if kind == ClosureKind.YEAR:
            years[school_id].append((first, last))
        else:
            closed[school_id].update(days_between(first, last))
    return {
        school_id: SchoolCalendar(closed[school_id] | set(gaps(years[school_id])), tuple(weekdays))
        for school_id, weekdays in program.schools.values_list("id", "weekdays")
    }


def clock(program: Program, school_id: int | None = None) -> SchoolCalendar:
    """The calendar a date is counted on: the school's own, else all the teacher's schools together."""
    known = calendars(program)
    return known[school_id] if school_id in known else together(known.values())
