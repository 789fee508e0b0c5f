"""Figures of the money, asked from the record: of each year and each school, with the purchases behind each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django.db.models import F, Min, Q, QuerySet, Sum
from django.db.models.functions import Coalesce
from django.utils.translation import gettext_lazy as _

from partners.funding.buying_models import Payer
from partners.funding.educator import cap_of, deductible_cents
from partners.funding.figures import Figures, Month, Span, by_school, span_of, span_on, spans, total, within
from partners.ground.due import Words
from partners.program.desk import Desk

MOST_YEARS = 6
TAX_SAVED, TAX_BACK, OUT_OF_POCKET, REPAID = "tax-saved", "tax-back", "out-of-pocket", "repaid"
_came_back = Coalesce("repaid_cents", 0) + Coalesce("tax_back_cents", 0)
# The purchases behind each figure, by the word that stands in addresses. Each also says what is summed of them.
BEHIND: Mapping[str, tuple[Q, Any]] = {
    TAX_SAVED: (Q(tax_saved_cents__gt=0), F("tax_saved_cents")),
    TAX_BACK: (Q(tax_back_due__isnull=False, tax_back_on=None, tax_let_go=False), F("tax_cents")),
    OUT_OF_POCKET: (Q(payer=Payer.OWN, total_cents__gt=_came_back), F("total_cents") - _came_back),
    REPAID: (Q(payer=Payer.OWN, repaid_on__isnull=False), F("repaid_cents")),
}
# Who paid of their own is nobody's business but the teachers'.
NOT_FOR_GUESTS = (OUT_OF_POCKET, REPAID)
TITLES: Mapping[str, Words] = {
    TAX_SAVED: _("Tax saved"),
    TAX_BACK: _("Tax charged wrongly, not back"),
    OUT_OF_POCKET: _("Out of pocket, not repaid"),
    REPAID: _("Repaid to me"),
}


def figures_open(desk: Desk) -> list[str]:
    """Those that the person may see, in their order."""
    return [state for state in BEHIND if desk.writes or state not in NOT_FOR_GUESTS]


def behind(rows: QuerySet[Any], *, span: Span | None = None, state: str = "") -> QuerySet[Any]:
    """Of these purchases, those of the year that stand behind the figure; each limit only where it is said."""
    if span is not None:
        rows = rows.filter(bought_on__gte=span.first, bought_on__lt=span.end)
    return rows.filter(BEHIND[state][0], bought_on__isnull=False) if state else rows


def months(desk: Desk, latest: Span, oldest: Span) -> list[Month]:
    """Sums of each month and school between the two years, in one query over the days of buying."""
    rows = desk.purchases.filter(bought_on__gte=oldest.first, bought_on__lt=latest.end)
    sums = {f"sum_{n}": Coalesce(Sum(what, filter=which), 0) for n, (which, what) in enumerate(BEHIND.values())}
    found = rows.order_by().values_list("school_id", "bought_on__year", "bought_on__month").annotate(**sums)
    return [Month(school, year, month, Figures(*cents)) for school, year, month, *cents in found]


@dataclass(frozen=True)
class Cell:
    """One figure in a table, with the query that opens the purchases behind it; empty where there are none."""

    title: Words
    cents: int
    query: str


@dataclass(frozen=True)
class Line:
    name: str
    cells: list[Cell]
    code: str = ""
    current: bool = False


def cells(desk: Desk, figures: Figures, span: Span, school: int | None = None) -> list[Cell]:
    sums = dict(
        zip(BEHIND, (figures.tax_saved, figures.tax_to_get_back, figures.out_of_pocket, figures.repaid), strict=True)
    )
    asked: dict[str, Any] = {"year": span.code} | ({"school": school} if school else {})
    return [
        Cell(TITLES[state], sums[state], urlencode({**asked, "state": state}) if sums[state] else "")
        for state in figures_open(desk)
    ]


def money_page(desk: Desk, code: str) -> dict[str, Any]:
    """The context of the page: the year that is asked for, those before it, and its schools. `code` may be anything."""
    begins = desk.program.fiscal_year_starts
    asked = span_of(code, begins) or span_on(desk.day, begins)
    latest = span_on(desk.day, begins, calendar=asked.is_calendar)
    first = desk.purchases.aggregate(first=Min("bought_on"))["first"] or desk.day
    shown = spans(first, latest, begins, MOST_YEARS)
    found = months(desk, shown[0], shown[-1])
    span = next((one for one in shown if one == asked), latest)
    return {
        "span": span,
        "titles": [TITLES[state] for state in figures_open(desk)],
        "years": year_lines(desk, shown, found, span),
        "schools": school_lines(desk, within(found, span), span),
        "other": span_on(span.first, begins, calendar=not span.is_calendar) if begins != 1 else None,
        "anything": bool(found),
        **educator_note(desk, span, total(within(found, span)).out_of_pocket),
    }


def educator_note(desk: Desk, span: Span, own_cents: int) -> dict[str, Any]:
    """What of the year's own money could be deducted, as far as a figure was published; only of calendar years."""
    if not desk.writes or not span.is_calendar:
        return {}
    return {"own_cents": own_cents, "cap": cap_of(span.year), "deductible": deductible_cents(own_cents, span.year)}


def year_lines(desk: Desk, shown: Sequence[Span], found: Sequence[Month], current: Span) -> list[Line]:
    return [
        Line(span.name, cells(desk, total(within(found, span)), span), span.code, span == current) for span in shown
    ]


def school_lines(desk: Desk, found: Sequence[Month], span: Span) -> list[Line]:
    """Each school that has figures; what belongs to no one school comes last, without its own purchases to open."""
    sums = by_school(found)
    named = [(pk, name) for pk, name in desk.schools.values_list("pk", "name") if pk in sums]
    lines = [Line(name, cells(desk, sums[pk], span, pk)) for pk, name in named]
    if None in sums:
        lines.append(Line("", [Cell(one.title, one.cents, "") for one in cells(desk, sums[None], span)]))
    return lines
