"""Hours that helpers gave, asked from the record for the pages that tell them."""

from __future__ import annotations

from typing import Any

from django.db.models import Min, QuerySet, Sum

from partners.helpers.figures import YearFigures, hour_value, school_year, together, worth_cents, year_days
from partners.helpers.models import Helper
from partners.helpers.own import own_turns
from partners.helpers.tags import spent
from partners.program.desk import Desk

MOST_YEARS = 12


def sessions_and_kits(desk: Desk, year: int) -> tuple[QuerySet[Any], QuerySet[Any]]:
    """Turns that somebody came to and kits that came back in the school year that began in `year`."""
    first, end = year_days(year, desk.program.fiscal_year_starts)
    turns = own_turns(desk).filter(came=True, session__day__gte=first, session__day__lt=end)
    return turns, desk.kits.filter(back_on__gte=first, back_on__lt=end)


def minutes_by_helper(rows: QuerySet[Any]) -> dict[int, int]:
    summed = rows.order_by().values_list("helper").annotate(total=Sum("minutes"))
    return {helper: total or 0 for helper, total in summed}


def figures_of(desk: Desk, year: int) -> YearFigures:
    """Helpers and minutes of one school year."""
    return together(*(minutes_by_helper(rows) for rows in sessions_and_kits(desk, year)))


def hours_of(desk: Desk, helper: Helper) -> list[dict[str, Any]]:
    """One helper's hours, this school year's and all together, in words; nothing where there are none."""
    this_year = school_year(desk.day, desk.program.fiscal_year_starts)
    turns, kits = (rows.filter(helper=helper) for rows in sessions_and_kits(desk, this_year))
    year = sum(rows.aggregate(total=Sum("minutes"))["total"] or 0 for rows in (turns, kits))
    own = (own_turns(desk).filter(helper=helper, came=True), desk.kits.filter(helper=helper))
    ever = sum(rows.aggregate(total=Sum("minutes"))["total"] or 0 for rows in own)
    return [{"year": spent(year), "ever": spent(ever)}] if ever else []


def hours_page(desk: Desk) -> dict[str, Any]:
    """Each school year that has hours, the latest first, with the value of the hours where a figure is known."""
    program = desk.program
    last = school_year(desk.day, program.fiscal_year_starts)
    begins = desk.sessions.aggregate(first=Min("day"))["first"]
    first = school_year(begins, program.fiscal_year_starts) if begins else last
    years = []
    for year in range(last, max(first, last - MOST_YEARS) - 1, -1):
        found = figures_of(desk, year)
        if found.helpers:
            years.append({"year": f"{year}–{(year + 1) % 100:02d}", **told(desk, year, found)})
    return {"years": years}


def told(desk: Desk, year: int, found: YearFigures) -> dict[str, Any]:
    program = desk.program
    hour = hour_value(year, program.hour_value_cents, program.hour_value_year, program.hour_value_source)
    return {
        "helpers": found.helpers,
        "hours": spent(found.minutes),
        "hour": hour,
        "worth_cents": worth_cents(found.minutes, hour) if hour else None,
    }
