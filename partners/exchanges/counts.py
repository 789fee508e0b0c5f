"""How many items the school made in a year and how many things it received for them, with the rows behind each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import QuerySet

from partners.ground.years import first_day, last_day, name_of, year_of
from partners.promises.models import Part

MADE, RECEIVED = "made", "received"
PART_OF = {MADE: Part.MAKE, RECEIVED: Part.GIVE}


@dataclass(frozen=True)
class YearCounts:
    """`made` and `received` count things in deliveries of the year; `uncounted` are deliveries without a number."""

    year: int
    name: str
    made: int
    received: int
    uncounted: int


def deliveries(desk: Any, year: int, side: str) -> QuerySet[Any]:
    """What was handed over (made) or came (received) of trades in the program's year that begins in `year`."""
    begins = desk.program.fiscal_year_starts
    days = {"day__gte": first_day(year, begins), "day__lte": last_day(year, begins)}
    found: QuerySet[Any] = desk.deliveries.filter(
        promise__in=desk.promises.part(PART_OF[side]).values("pk"), **days
    ).order_by("day", "pk")
    return found


def year_counts(desk: Any, year: int) -> YearCounts:
    return counts(desk, [year])[0]


def counts(desk: Any, years: Sequence[int]) -> list[YearCounts]:
    """The counts of these years, in two queries for all of them."""
    begins = desk.program.fiscal_year_starts
    sides = {part: side for side, part in PART_OF.items()}
    parts = dict(desk.promises.filter(trade__isnull=False, part__in=list(sides)).order_by().values_list("pk", "part"))
    days = {"day__gte": first_day(min(years), begins), "day__lte": last_day(max(years), begins)}
    sums: dict[tuple[int, str], int] = defaultdict(int)
    uncounted: dict[int, int] = defaultdict(int)
    for promise_id, day, quantity in (
        desk.deliveries.filter(**days).order_by().values_list("promise_id", "day", "quantity")
    ):
        if promise_id in parts:
            year = year_of(day, begins)
            sums[year, sides[parts[promise_id]]] += quantity or 0
            uncounted[year] += quantity is None
    return [
        YearCounts(year, name_of(year, begins), sums[year, MADE], sums[year, RECEIVED], uncounted[year])
        for year in years
    ]


def this_year(desk: Any) -> int:
    return year_of(desk.day, desk.program.fiscal_year_starts)


def years(desk: Any) -> list[YearCounts]:
    """The counts of this year and of every earlier one since the first trade, the latest first; at most eight."""
    first: date | None = desk.trades.order_by("agreed_on", "pk").values_list("agreed_on", flat=True).first()
    latest = this_year(desk)
    earliest = year_of(first, desk.program.fiscal_year_starts) if first else latest
    return counts(desk, range(latest, max(earliest, latest - 7) - 1, -1))
