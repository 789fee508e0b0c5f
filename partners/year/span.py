"""Which year is looked at: the program's year around today, or an earlier one of which something is written down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Min

from partners.ground.months import add_months
from partners.ground.years import first_day, last_day, name_of, year_of
from partners.program.desk import Desk

MOST_YEARS = 12


@dataclass(frozen=True, slots=True)
class Span:
    """A program's year, from its first to its last day; `begins` is the month in which such years begin."""

    year: int
    begins: int

    @property
    def first(self) -> date:
        return first_day(self.year, self.begins)

    @property
    def last(self) -> date:
        return last_day(self.year, self.begins)

    @property
    def name(self) -> str:
        return name_of(self.year, self.begins)

    @property
    def before(self) -> Span:
        return Span(self.year - 1, self.begins)

    @property
    def months(self) -> list[date]:
        """The first day of each of its twelve months."""
        return [add_months(self.first, n) for n in range(12)]

    def goes_on(self, day: date) -> bool:
        """Whether the day lies in it, so that its figures still grow."""
        return self.first <= day <= self.last

    def within(self, field: str) -> dict[str, date]:
        """The condition on a column of days."""
        return {f"{field}__gte": self.first, f"{field}__lte": self.last}


def month_within(month: date, field: str) -> dict[str, date]:
    """The condition on a column of days, for the month that begins with `month`."""
    return {f"{field}__gte": month, f"{field}__lte": add_months(month, 1) - timedelta(days=1)}


def this_year(desk: Desk) -> Span:
    begins = desk.program.fiscal_year_starts
    return Span(year_of(desk.day, begins), begins)


def spans(desk: Desk) -> list[Span]:
    """The years that can be looked at, the latest first: from the first ask, gift or trade on."""
    latest = this_year(desk)
    firsts = [
        desk.asks.order_by().aggregate(first=Min("asked_on"))["first"],
        desk.gifts.order_by().aggregate(first=Min("day"))["first"],
        desk.trades.order_by().aggregate(first=Min("agreed_on"))["first"],
    ]
    known = [year_of(day, latest.begins) for day in firsts if day is not None]
    earliest = max(min(known, default=latest.year), latest.year - MOST_YEARS + 1)
    return [Span(year, latest.begins) for year in range(latest.year, min(earliest, latest.year) - 1, -1)]


def chosen(desk: Desk, known: Sequence[Span], typed: str) -> Span:
    """The year that was asked for; where that is none of those known, the latest of which something is written down."""
    asked = next((one for one in known if str(one.year) == typed), None)
    return asked or (known[0] if len(known) == 1 or is_begun(desk, known[0]) else known[1])


def is_begun(desk: Desk, span: Span) -> bool:
    """Whether anything is told of it: in July it is the year before that is reported on."""
    days = ((desk.gifts, "day"), (desk.asks, "asked_on"), (desk.trades, "agreed_on"))
    return any(rows.filter(**span.within(field)).exists() for rows, field in days)
