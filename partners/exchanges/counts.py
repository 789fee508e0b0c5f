"""How many items the school made in a year and how many things it received for them, with the rows behind each."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Count, QuerySet, Sum

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
    sums = {}
    uncounted = 0
    for side in PART_OF:
        total = deliveries(desk, year, side).order_by().aggregate(
            total=Sum("quantity"), rows=Count("pk"), counted=Count("quantity")
        )  # fmt: skip
        sums[side] = total["total"] or 0
        uncounted += total["rows"] - total["counted"]
    return YearCounts(year, name_of(year, desk.program.fiscal_year_starts), sums[MADE], sums[RECEIVED], uncounted)


def this_year(desk: Any) -> int:
    return year_of(desk.day, desk.program.fiscal_year_starts)


def years(desk: Any) -> list[YearCounts]:
    """The counts of this year and of every earlier one since the first trade, the latest first; at most eight."""
    first: date | None = desk.trades.order_by("agreed_on", "pk").values_list("agreed_on", flat=True).first()
    latest = this_year(desk)
    earliest = year_of(first, desk.program.fiscal_year_starts) if first else latest
    return [year_counts(desk, year) for year in range(latest, max(earliest, latest - 7) - 1, -1)]
