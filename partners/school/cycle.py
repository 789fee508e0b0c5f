"""Which day of a rotating cycle a day is, and on which days a class meets."""

from __future__ import annotations

from collections.abc import Collection, Iterator
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
    return _used_before(calendar, cycle, day, set(unplanned)) % cycle.length + 1


def cycle_days(
    calendar: SchoolCalendar, cycle: Cycle, first: date, last: date, unplanned: Collection[date] = ()
) -> Iterator[tuple[date, int]]:
    """Every school day from `first` through `last` with its number in the cycle; none from before the cycle begins.

    The same numbers as `cycle_day` gives, in one walk.
    """
    lost = set(unplanned)
    first = max(first, cycle.first_day)
    used = _used_before(calendar, cycle, first, lost)
    for ahead in range((last - first).days + 1):
        day = first + timedelta(days=ahead)
        if day in lost:
            used += day.weekday() in calendar.weekdays and not cycle.slips
        elif calendar.is_school_day(day):
            yield day, used % cycle.length + 1
            used += 1


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
    return [day for day, number in numbered_days(calendar, first, last, cycle, unplanned) if number in on]


def numbered_days(
    calendar: SchoolCalendar, first: date, last: date, cycle: Cycle | None = None, unplanned: Collection[date] = ()
) -> Iterator[tuple[date, int]]:
    """Every school day from `first` through `last`, each with its number in the cycle, else with its weekday."""
    if cycle is not None:
        yield from cycle_days(calendar, cycle, first, last, unplanned)
        return
    lost = set(unplanned)
    for ahead in range((last - first).days + 1):
        day = first + timedelta(days=ahead)
        if _has_school(calendar, day, lost):
            yield day, day.weekday()


def _used_before(calendar: SchoolCalendar, cycle: Cycle, day: date, unplanned: set[date]) -> int:
    """How many numbers the cycle has used up before `day`, counted, however far that is."""
    used = calendar.count(cycle.first_day - timedelta(days=1), day - timedelta(days=1))
    for lost in unplanned:
        if cycle.first_day <= lost < day and lost.weekday() in calendar.weekdays:
            if cycle.slips:
                used -= calendar.is_school_day(lost)
            else:
                used += not calendar.is_school_day(lost)
    return used


def _has_school(calendar: SchoolCalendar, day: date, unplanned: Collection[date]) -> bool:
    return calendar.is_school_day(day) and day not in unplanned
