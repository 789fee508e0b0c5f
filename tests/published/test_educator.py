"""The educator deduction by year: IRS Topic no. 458, Educator expense deduction, from secondary sources."""

from __future__ import annotations

import pytest

from partners.funding.educator import cap_of, deductible_cents


@pytest.mark.parametrize(("year", "cents"), [(2021, 250_00), (2023, 300_00), (2025, 300_00)])
def test_of_420_the_published_cap_counts(year: int, cents: int) -> None:
    """IRS Topic no. 458: 250 until 2021, 300 since 2022."""
    assert deductible_cents(420_00, year) == cents


@pytest.mark.parametrize(("year", "cents"), [(2002, 250_00), (2021, 250_00), (2022, 300_00), (2025, 300_00)])
def test_what_is_less_than_the_cap_counts_whole(year: int, cents: int) -> None:
    assert deductible_cents(cents, year) == deductible_cents(cents + 1, year) == cents
    assert deductible_cents(97_35, year) == 97_35


@pytest.mark.parametrize("year", [2001, 2026, 2027])
def test_a_year_without_a_figure_never_borrows_one(year: int) -> None:
    """For 2026 only secondary sources were found (P.L. 119-21): the answer is to ask."""
    assert deductible_cents(420_00, year) is None
    assert (cap_of(year) is None) == (year != 2026)


def test_nobody_spends_less_than_nothing() -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        deductible_cents(-1, 2025)
