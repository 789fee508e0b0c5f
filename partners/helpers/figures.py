"""Hours of helpers by school year, and what they are worth where a published figure says so; without Django."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from partners.ground.reference import reference


@dataclass(frozen=True, slots=True)
class YearFigures:
    """`helpers` came at least once or brought a kit back; `minutes` are those of sessions and kits together."""

    helpers: int
    minutes: int

    @property
    def hours(self) -> float:
        return self.minutes / 60


@dataclass(frozen=True, slots=True)
class HourValue:
    """What one hour counts for, in cents; the year the figure is of, and who published it."""

    cents: int
    year: int
    source: str


def school_year(day: date, first_month: int) -> int:
    """The calendar year in which the school year of `day` began, when it begins on the first of `first_month`."""
    return day.year if day.month >= first_month else day.year - 1


def year_days(year: int, first_month: int) -> tuple[date, date]:
    """The first day of the school year that began in `year`, and the first of the next."""
    return date(year, first_month, 1), date(year + 1, first_month, 1)


def together(*parts: Mapping[int, int]) -> YearFigures:
    """Helpers and minutes of several kinds of work, each given as minutes by helper."""
    helpers = {pk for part in parts for pk in part}
    return YearFigures(len(helpers), sum(sum(part.values()) for part in parts))


def published_hour(year: int) -> HourValue | None:
    """The published national value of a volunteer hour of that data year; None where the table lacks it."""
    table = reference("volunteer_hour")
    cents = table["years"].get(str(year))
    return HourValue(cents, year, table["source"]) if cents is not None else None


def hour_value(year: int, own_cents: int | None, own_year: int | None, own_source: str) -> HourValue | None:
    """What the settings say, with amount, year and source all said; otherwise the figure published for `year`.

    Another year's figure never stands in for one that is missing.
    """
    if own_cents is not None and own_year is not None and own_source:
        return HourValue(own_cents, own_year, own_source)
    return published_hour(year)


def worth_cents(minutes: int, hour: HourValue) -> int:
    """So many minutes at the hour's value, to the nearest cent, half a cent up."""
    return (minutes * hour.cents * 2 + 60) // 120
