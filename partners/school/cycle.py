"""Which day of a rotating cycle a day is, and on which days a class meets."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from partners.school.calendar import SchoolCalendar


@dataclass(frozen=True)
class Cycle:
    """Days 1 to `length` that follow each other from `first_day` on, over weekends and planned closures.

    After an unplanned closure (snow, a burst pipe) the cycle either `slips`, so that the next school day takes the
    number that was lost, or it does not, and that number is skipped.
    """

    first_day: date
    length: int
    slips: bool = True

    def __post_init__(self) -> None:
        if self.length < 1:
            raise ValueError("A cycle has at least one day.")


def cycle_day(calendar: SchoolCalendar, cycle: Cycle, day: date, unplanned: Collection[date] = ()) -> int | None:
    """The number of `day` in the cycle, 1 to its length; None without school on that day or before the cycle begins.

    `unplanned` are the closures that came unexpectedly. They may stand among the calendar's closed days or not: either
    way there is no school on them.
    """
    if day < cycle.first_day or not _has_school(calendar, day, unplanned):
        return None
    number = calendar.count(cycle.first_day - timedelta(days=1), day)
    for lost in set(unplanned):
        if cycle.first_day <= lost < day and lost.weekday() in calendar.weekdays:
            if cycle.slips:
                number -= calendar.is_school_day(lost)
            else:
                number += not calendar.is_school_day(lost)
    return (number - 1) % cycle.length + 1


def meetings(
    calendar: SchoolCalendar,
    first: date,
    last: date,
    on: Collection[int],
    cycle: Cycle | None = None,
    unplanned: Collection[date] = (),
) -> list[date]:
    """The days from `first` through `last` on which a class meets, in order.

    Without a cycle `on` are weekdays (0 is Monday), with one they are days of that cycle (1 is its first).
    """
    found = []
    for ahead in range((last - first).days + 1):
        day = first + timedelta(days=ahead)
        if cycle is not None:
            meets = cycle_day(calendar, cycle, day, unplanned) in on
        else:
            meets = day.weekday() in on and _has_school(calendar, day, unplanned)
        if meets:
            found.append(day)
    return found


def _has_school(calendar: SchoolCalendar, day: date, unplanned: Collection[date]) -> bool:
    return calendar.is_school_day(day) and day not in unplanned
