"""When the demo book's school year begins and ends, whatever day it is loaded on, and what a day of it falls on."""

from __future__ import annotations

from datetime import date, timedelta

from partners.school.closures import federal_holidays

TUESDAY, FRIDAY = 1, 4


def school_year_around(day: date) -> tuple[date, date]:
    """From the last Tuesday of August to a Friday in the middle of June; in summer the year that is over."""
    first = _begins(day.year)
    year = day.year if day >= first else day.year - 1
    return _begins(year), _on_or_after(date(year + 1, 6, 12), FRIDAY)


def in_season(today: date, day: date) -> date:
    """A day ahead that falls into the summer: the last school day before, or, in summer, as far into fall."""
    _first, last = school_year_around(today)
    fall = _begins(last.year)
    if today > last:
        return fall + (day - today) if day < fall else day
    return last if last < day < fall else day


def recess(day: date) -> str:
    """What a week without school is called in that month."""
    if day.month in (11, 12, 1):
        return "Winter recess"
    return "Spring recess" if 2 <= day.month <= 5 else "Fall recess"


def holidays_around(day: date) -> list[tuple[date, date, str]]:
    """Federal holidays of that school year and of the fall after it, each from and until; the Friday after Thanksgiving
    goes with it.
    """
    first, last = school_year_around(day)
    named = federal_holidays((first.year, last.year))
    free = [(free, name) for free, name in named if free >= first and free.weekday() <= FRIDAY]
    return [(one, one + timedelta(days="Thanksgiving" in name), name) for one, name in free]


def _begins(year: int) -> date:
    return _on_or_after(date(year, 8, 25), TUESDAY)


def _on_or_after(day: date, weekday: int) -> date:
    return day + timedelta(days=(weekday - day.weekday()) % 7)
