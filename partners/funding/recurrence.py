"""When a free day comes back: rules as calendars write them (RFC 5545, 3.3.10), their times, and their words.

Pure. A rule is text such as `FREQ=YEARLY;BYMONTH=7;BYDAY=3TH`; without one, a day comes once. Times are counted from
the first one, which the rule must hold itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum

from dateutil.rrule import rrule, rrulestr

CONFIRM_BEFORE = timedelta(weeks=4)
WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
FOURTH, LAST = 4, -1


class Every(StrEnum):
    """How a free day comes back, as people say it."""

    ONCE = "once"
    YEAR_WEEKDAY = "year_weekday"
    YEAR_DATE = "year_date"
    MONTH_WEEKDAY = "month_weekday"
    TWO_WEEKS = "two_weeks"
    WEEK = "week"


@dataclass(frozen=True, slots=True)
class Rhythm:
    """What people say of a rule. `which` is 1 to 4 or LAST, `weekday` 0 for Monday, `month` and `day` from 1.

    What a kind of rhythm does not speak of is 0.
    """

    every: Every
    which: int = 0
    weekday: int = 0
    month: int = 0
    day: int = 0


ONCE = Rhythm(Every.ONCE)


def rhythm_on(every: Every, first: date) -> Rhythm:
    """The rhythm of that kind whose first time is `first`; a fifth Thursday of a month is its last."""
    weekday, place = first.weekday(), (first.day - 1) // 7 + 1
    which = place if place <= FOURTH else LAST
    if every == Every.YEAR_WEEKDAY:
        return Rhythm(every, which, weekday, first.month)
    if every == Every.MONTH_WEEKDAY:
        return Rhythm(every, which, weekday)
    if every == Every.YEAR_DATE:
        return Rhythm(every, month=first.month, day=first.day)
    return Rhythm(every, weekday=weekday) if every in (Every.TWO_WEEKS, Every.WEEK) else ONCE


def rule_of(rhythm: Rhythm) -> str:
    """The rule as text; empty for what comes once."""
    by_day = WEEKDAYS[rhythm.weekday]
    parts = {
        Every.ONCE: "",
        Every.YEAR_WEEKDAY: f"FREQ=YEARLY;BYMONTH={rhythm.month};BYDAY={rhythm.which}{by_day}",
        Every.YEAR_DATE: f"FREQ=YEARLY;BYMONTH={rhythm.month};BYMONTHDAY={rhythm.day}",
        Every.MONTH_WEEKDAY: f"FREQ=MONTHLY;BYDAY={rhythm.which}{by_day}",
        Every.TWO_WEEKS: f"FREQ=WEEKLY;INTERVAL=2;BYDAY={by_day}",
        Every.WEEK: f"FREQ=WEEKLY;BYDAY={by_day}",
    }
    return parts[rhythm.every]


def rhythm_of(rule: str) -> Rhythm | None:
    """What people say of the rule; None for one that says more than that."""
    if not rule:
        return ONCE
    known = dict(part.partition("=")[::2] for part in rule.upper().split(";"))
    day = known.get("BYDAY", "")
    number, weekday = day[:-2], day[-2:]
    found = {
        ("YEARLY", "BYDAY", "BYMONTH"): Every.YEAR_WEEKDAY,
        ("YEARLY", "BYMONTH", "BYMONTHDAY"): Every.YEAR_DATE,
        ("MONTHLY", "BYDAY"): Every.MONTH_WEEKDAY,
        ("WEEKLY", "BYDAY", "INTERVAL"): Every.TWO_WEEKS,
        ("WEEKLY", "BYDAY"): Every.WEEK,
    }.get((known.pop("FREQ", ""), *sorted(known)))
    if found is None:
        return None
    try:
        which = int(number or 0)
        told = Rhythm(
            found, which, WEEKDAYS.index(weekday) if weekday else 0, int(known.get("BYMONTH", 0)),
            int(known.get("BYMONTHDAY", 0)),
        )  # fmt: skip
    except ValueError:
        return None
    return told if rule_of(told) == rule.upper() else None


def times(rule: str, first: date, after: date | None = None) -> Iterator[date]:
    """The times in order, each later than `after`. Raises ValueError for text that is no rule.

    A first time that the rule does not hold is no time of it (RFC 5545, 3.8.5.3, leaves that open).
    """
    if not rule:
        if after is None or first > after:
            yield first
        return
    found = _read(rule, first)
    start = datetime.combine(first if after is None else max(first, after + timedelta(days=1)), time())
    for moment in found.xafter(start, inc=True):
        yield moment.date()


def _read(rule: str, first: date) -> rrule:
    found = rrulestr(rule, dtstart=datetime.combine(first, time()))
    if not isinstance(found, rrule):
        raise ValueError("One rule, and nothing besides.")
    return found


def next_time(rule: str, first: date, after: date | None = None, until: date | None = None) -> date | None:
    """The first time later than `after`, and not later than `until`; None where there is none any more."""
    found = next(times(rule, first, after), None)
    return None if found is None or (until is not None and found > until) else found


def is_time(rule: str, first: date, day: date) -> bool:
    return next_time(rule, first, day - timedelta(days=1)) == day


def confirm_day(rule: str, first: date, day: date) -> date | None:
    """Four weeks before the time `day`; None for what comes back sooner than that, which nobody confirms each time."""
    following = next_time(rule, first, day)
    too_often = following is not None and following - day < CONFIRM_BEFORE
    return None if too_often else day - CONFIRM_BEFORE
