"""Days without school as they are entered: ranges, the time between school years, federal holidays to start from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

import holidays


def days_between(first: date, last: date) -> list[date]:
    """Every day from `first` through `last`, both counted. Raises ValueError when they are the wrong way round."""
    if last < first:
        raise ValueError("The last day comes before the first.")
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def gaps(years: Sequence[tuple[date, date]]) -> list[date]:
    """The days between the end of one school year (first day, last day) and the start of the next, in order.

    Years may come in any order and may overlap. Before the first year and after the last nothing is known, so nothing
    is closed. Raises ValueError for a year that ends before it begins.
    """
    closed: list[date] = []
    latest: date | None = None
    for first, last in sorted(years):
        if last < first:
            raise ValueError("A school year ends before it begins.")
        if latest is not None and first - latest > timedelta(days=1):
            closed += days_between(latest + timedelta(days=1), first - timedelta(days=1))
        latest = last if latest is None else max(latest, last)
    return closed


def summer_before(first_year: date) -> tuple[date, date]:
    """The summer that ends where a first school year begins: ten weeks, as is common practice in the US."""
    return first_year - timedelta(weeks=10), first_year - timedelta(days=1)


def summer_after(last_year: date) -> tuple[date, date]:
    """The summer that begins where a school year ends: ten weeks, until somebody says when the next one begins."""
    return last_year + timedelta(days=1), last_year + timedelta(weeks=10)


def federal_holidays(years: Iterable[int]) -> list[tuple[date, str]]:
    """The US federal holidays that fall in these calendar years, by date, with their English names.

    A holiday on a weekend stands there twice: on its own day and on the day it is observed (5 U.S.C. 6103 and Executive
    Order 11582). New Year's Day of 2028 is observed on 31 December 2027 and so belongs to 2027. They are offered as a
    start only: a school's own closures decide.
    """
    asked = set(years)
    named = holidays.country_holidays("US", years=asked | {year + 1 for year in asked})
    return sorted((day, name) for day, name in named.items() if day.year in asked)
