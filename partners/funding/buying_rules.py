"""What follows from a receipt: its sums, the tax that was saved or charged without need, and until when. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from partners.funding.sales_tax import percent, tax_cents
from partners.ground.years import last_day, year_of

# Days in which a shop is asked to give tax back; common practice, since many take a receipt back for a month.
TAX_BACK_DAYS = 30


@dataclass(frozen=True, slots=True)
class ReceiptLine:
    """Kind ("item", "shipping", "tax", "discount") and cents; a discount is below zero."""

    kind: str
    cents: int
    taxable: bool = True


def total_cents(lines: Iterable[ReceiptLine]) -> int:
    return sum(line.cents for line in lines)


def charged_tax_cents(lines: Iterable[ReceiptLine]) -> int:
    return sum(line.cents for line in lines if line.kind == "tax")


def expected_tax_cents(lines: Sequence[ReceiptLine], rate_parts: int, per_item: bool) -> int:
    """The tax that the rate comes to on what is taxable; `rate_parts` in ten-thousandths of a percent.

    A line is an item, however many pieces stand in it. A discount on the whole receipt belongs to no item, so with one
    the tax is rounded once; a discount larger than what is taxable leaves nothing to tax.
    """
    amounts = [line.cents for line in lines if line.kind != "tax" and line.taxable]
    if any(cents < 0 for cents in amounts):
        return tax_cents([max(0, sum(amounts))], percent(rate_parts))
    return tax_cents(amounts, percent(rate_parts), per_item)


def tax_saved_cents(*, expected: int, charged: int, came_back: int, exempt: bool) -> int:
    """What the certificate spared: the tax that was not charged, or was given back. Nothing where none was shown."""
    return max(0, expected - max(0, charged - came_back)) if exempt else 0


@dataclass(frozen=True, slots=True)
class ClaimDay:
    """The last day to hand in the receipt; `year_ends` where the fiscal year ends before the school's days are over."""

    day: date
    year_ends: bool


def claim_day(bought_on: date, days: int | None, fiscal_year_starts: int) -> ClaimDay:
    """`days` after buying as the school says, never after the fiscal year in which it was bought.

    Where the school says no number, the end of the fiscal year alone counts.
    """
    last = last_day(year_of(bought_on, fiscal_year_starts), fiscal_year_starts)
    if days is None or bought_on + timedelta(days=days) > last:
        return ClaimDay(last, True)
    return ClaimDay(bought_on + timedelta(days=days), False)


def repay_day(handed_in_on: date, days: int) -> date:
    return handed_in_on + timedelta(days=days)


def tax_back_day(bought_on: date) -> date:
    return bought_on + timedelta(days=TAX_BACK_DAYS)
