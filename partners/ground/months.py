"""Adding months and years to a day."""

from __future__ import annotations

from calendar import monthrange
from datetime import date


def add_months(anchor: date, n: int) -> date:
    """The same day of the month `n` months later (earlier when negative), or the last of a month that is too short.

    A series is counted from its anchor, never from its last member: from 31 January come 29 February and 31 March.
    """
    years, month = divmod(anchor.month - 1 + n, 12)
    year = anchor.year + years
    return date(year, month + 1, min(anchor.day, monthrange(year, month + 1)[1]))


def same_month_next_year(day: date) -> date:
    """The first day of the month of `day`, one year later."""
    return date(day.year + 1, day.month, 1)
