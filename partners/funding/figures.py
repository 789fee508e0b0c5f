"""Years that figures are told for, and the figures of what was bought, added up. Pure; all money is whole cents."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass
from datetime import date

from partners.ground.years import first_day, name_of, year_of


@dataclass(frozen=True, slots=True)
class Span:
    """A year; `code` stands in addresses: "2026" is a calendar year, "2026-27" a school year.

    `end` is the first day of the next.
    """

    code: str
    name: str
    first: date
    end: date

    @property
    def is_calendar(self) -> bool:
        return len(self.code) == len("2026")

    @property
    def year(self) -> int:
        return self.first.year


def span_on(day: date, begins: int, *, calendar: bool = False) -> Span:
    """The year around `day`; a school year begins with the month `begins`, and one of January is the calendar's."""
    return _span(day.year, 1) if calendar else _span(year_of(day, begins), begins)


def _span(year: int, begins: int) -> Span:
    code = str(year) if begins == 1 else f"{year}-{(year + 1) % 100:02d}"
    return Span(code, name_of(year, begins), first_day(year, begins), first_day(year + 1, begins))


def span_of(code: str, begins: int) -> Span | None:
    """The year that an address names; None for anything else."""
    found = re.fullmatch(r"(2[01][0-9]{2})(-[0-9]{2})?", code, re.ASCII)
    if found is None:
        return None
    span = _span(int(found[1]), begins if found[2] else 1)
    return span if span.code == code else None


def spans(first: date, latest: Span, begins: int, most: int) -> list[Span]:
    """`latest` and the years before it back to the one around `first`, at most so many; the latest first."""
    found, month = [latest], 1 if latest.is_calendar else begins
    while len(found) < most and found[-1].first > first:
        found.append(_span(found[-1].year - 1, month))
    return found


@dataclass(frozen=True, slots=True)
class Figures:
    """Tax saved; tax charged wrongly and not back; paid out of pocket and not repaid; repaid."""

    tax_saved: int = 0
    tax_to_get_back: int = 0
    out_of_pocket: int = 0
    repaid: int = 0

    def __add__(self, other: Figures) -> Figures:
        return Figures(*(a + b for a, b in zip(astuple(self), astuple(other), strict=True)))

    def __bool__(self) -> bool:
        return any(astuple(self))


@dataclass(frozen=True, slots=True)
class Month:
    """What one month's purchases for one school come to; `school` is None for what belongs to no one school."""

    school: int | None
    year: int
    month: int
    figures: Figures


def total(months: Iterable[Month]) -> Figures:
    return sum((month.figures for month in months), Figures())


def within(months: Iterable[Month], span: Span) -> list[Month]:
    return [one for one in months if span.first <= date(one.year, one.month, 1) < span.end]


def by_school(months: Iterable[Month]) -> Mapping[int | None, Figures]:
    """The figures of each school that has any."""
    found: dict[int | None, Figures] = {}
    for one in months:
        found[one.school] = found.get(one.school, Figures()) + one.figures
    return {school: figures for school, figures in found.items() if figures}
