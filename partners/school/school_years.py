"""Which school year classes are of that are written down on a day, and which one a program's year is about."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from partners.ground.months import add_months

JULY = 7
# A school year that was entered and is over before this month ended half way; the next one has not begun.
SPRING = 4


def school_year(day: date, ended: Iterable[date] = ()) -> int:
    """The calendar year in which it begins: in July (common practice), or as soon as the one before is over.

    `ended` are last days of school years as they were entered.
    """
    year = day.year if day.month >= JULY else day.year - 1
    over = any(last < day and last.year == day.year and SPRING <= last.month < JULY for last in ended)
    return year + 1 if over and day.month < JULY else year


def school_year_within(first: date) -> int:
    """The school year that fills most of a program's year beginning on `first`."""
    return school_year(add_months(first, 6))
