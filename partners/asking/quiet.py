"""When a kind of business is busy and an ask is badly timed. Hints, never a verdict: nothing here blocks anyone.

Every figure is common practice of teachers who ask in person; no published source. All are data that can be replaced
by the program's own (`hints`), and what a partner said of itself always wins.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, time, timedelta
from functools import lru_cache

from partners.school.calendar import SchoolCalendar
from partners.school.closures import federal_holidays

BEST_WEEKDAYS = (1, 2, 3)
BEST_TIMES = ((time(9, 30), time(11)), (time(14), time(16)))
DAYS_BEFORE_HOLIDAY = 2
WEEK = timedelta(days=7)


def _every_day(day: date) -> bool:
    return True


@dataclass(frozen=True)
class Busy:
    """A time to stay away: on the days where `on(day)` is true, from `start` up to `end`; without them all day."""

    code: str
    on: Callable[[date], bool] = _every_day
    start: time | None = None
    end: time | None = None

    @property
    def all_day(self) -> bool:
        return self.start is None and self.end is None

    def at(self, day: date, hour: time | None) -> bool:
        """Whether this holds; without an hour only what holds all day."""
        if not self.on(day):
            return False
        if self.all_day or hour is None:
            return self.all_day
        return (self.start or time.min) <= hour and (self.end is None or hour < self.end)


@lru_cache(maxsize=32)
def _holidays(year: int) -> frozenset[date]:
    return frozenset(day for day, _name in federal_holidays([year]))


def before_holiday(day: date) -> bool:
    """One of the last two days before a federal holiday."""
    ahead = [day + timedelta(days=n) for n in range(1, DAYS_BEFORE_HOLIDAY + 1)]
    return any(later in _holidays(later.year) for later in ahead)


def mothers_day(year: int) -> date:
    """The second Sunday of May."""
    first = date(year, 5, 1)
    return first + timedelta(days=(6 - first.weekday()) % 7 + 7)


def flower_week(day: date) -> bool:
    """The seven days that end with 14 February or with Mother's Day."""
    return any(day <= feast < day + WEEK for feast in (date(day.year, 2, 14), mothers_day(day.year)))


def spring_saturday(day: date) -> bool:
    return day.month in (3, 4, 5) and day.weekday() == 5


def holiday_season(day: date) -> bool:
    """15 November through 2 January."""
    return (day.month, day.day) >= (11, 15) or (day.month, day.day) <= (1, 2)


def tax_season(day: date) -> bool:
    """15 January through 15 April."""
    return (1, 15) <= (day.month, day.day) <= (4, 15)


HINTS: Mapping[str, tuple[Busy, ...]] = {
    "restaurant": (Busy("lunch", start=time(11), end=time(14)), Busy("dinner", start=time(17), end=time(20))),
    "coffee_shop": (Busy("morning_rush", start=time(6, 30), end=time(9, 30)),),
    "grocer": (Busy("after_work", start=time(16), end=time(19)), Busy("before_holiday", before_holiday)),
    "hardware": (Busy("spring_saturday", spring_saturday),),
    "garden": (Busy("spring_saturday", spring_saturday),),
    "florist": (Busy("flower_week", flower_week),),
    "retail": (Busy("holiday_season", holiday_season),),
    "bank": (
        Busy("friday_afternoon", lambda day: day.weekday() == 4, start=time(12)),
        Busy("first_of_month", lambda day: day.day == 1),
    ),
    "accountant": (Busy("tax_season", tax_season),),
    "frame_shop": (Busy("framing_season", lambda day: day.month in (11, 12)),),
    "printer": (),
    "other": (),
}


def avoid(
    business_kind: str, day: date, hour: time | None = None, hints: Mapping[str, tuple[Busy, ...]] = HINTS
) -> list[str]:
    """The codes of what makes this a bad time; an empty list is a good one. Without an hour: of the whole day only.

    A kind that is not among the hints has none.
    """
    return [busy.code for busy in hints.get(business_kind, ()) if busy.at(day, hour)]


def best_days(
    business_kind: str,
    start: date,
    days: int,
    calendar: SchoolCalendar | None = None,
    hints: Mapping[str, tuple[Busy, ...]] = HINTS,
) -> list[date]:
    """Of the `days` days from `start` on, each Tuesday to Thursday without a hint against it, in order.

    With a calendar only its school days. Empty when the whole stretch lies in a busy season.
    """
    stretch = (start + timedelta(days=n) for n in range(days))
    return [
        day
        for day in stretch
        if day.weekday() in BEST_WEEKDAYS
        and not avoid(business_kind, day, hints=hints)
        and (calendar is None or calendar.is_school_day(day))
    ]


def next_good_day(
    business_kind: str,
    start: date,
    calendar: SchoolCalendar | None = None,
    hints: Mapping[str, tuple[Busy, ...]] = HINTS,
    within: int = 200,
) -> date | None:
    """The first of the best days from `start` on, such as a verdict's earliest day; None when none is within reach."""
    return next(iter(best_days(business_kind, start, within, calendar, hints)), None)
