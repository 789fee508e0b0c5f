"""Hours by school year, and their value only with a year and a source."""

from __future__ import annotations

from datetime import date

import pytest

from partners.helpers.figures import (
    HourValue,
    hour_value,
    published_hour,
    school_year,
    worth_cents,
)


@pytest.mark.parametrize(
    ("minutes", "year", "cents"),
    [
        (6 * 60, 2021, 179_70),  # Independent Sector, data year 2021: 29.95 an hour
        (750, 2019, 340_00),  # the same, data year 2019: 27.20 an hour
        (1, 2021, 50),  # 49.9 cents by hand
    ],
)
def test_hours_at_the_published_value_of_their_year(minutes: int, year: int, cents: int) -> None:
    hour = published_hour(year)
    assert hour is not None
    assert worth_cents(minutes, hour) == cents


def test_a_year_that_was_not_published_has_no_value() -> None:
    assert published_hour(2013) is None
    assert hour_value(2031, None, None, "") is None


@pytest.mark.parametrize("told", [(3000, None, "State office"), (3000, 2031, ""), (None, 2031, "State office")])
def test_an_own_figure_counts_only_with_its_year_and_source(told: tuple) -> None:
    assert hour_value(2021, *told) == published_hour(2021)
    assert hour_value(2021, 3000, 2031, "State office") == HourValue(3000, 2031, "State office")


@pytest.mark.parametrize(("day", "year"), [(date(2026, 6, 30), 2025), (date(2026, 7, 1), 2026)])
def test_a_school_year_has_the_number_of_the_year_it_begins_in(day: date, year: int) -> None:
    assert school_year(day, 7) == year
