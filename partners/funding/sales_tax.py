"""Sales tax to the cent, exactly: rates are decimals, amounts whole cents, and no binary fraction comes between.

The rule is that of the Streamlined Sales and Use Tax Agreement, section 324, as its member states enacted it: tax is
carried to the third decimal of a dollar and rounded up to a whole cent when that is greater than four; the seller
chooses whether this is done for each item or once for the invoice.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from partners.ground.plain import PlainError, gettext_noop

MOST_PERCENT = 30
# A rate is kept in ten-thousandths of a percent: 6.875 % is 68,750.
PARTS = 10_000
DECIMALS = 4

_TYPED = re.compile(r"(?P<whole>[0-9]{0,9})(?:\.(?P<part>[0-9]*))?")


class SalesTaxError(PlainError):
    """A rate or an amount of which no sales tax can be worked out."""


def tax_cents(subtotals_cents: Sequence[int], rate_percent: Decimal, per_item: bool = False) -> int:
    """The tax in cents on taxable amounts in cents, at a rate in percent (`Decimal("6.875")`).

    With `per_item` every amount is an item of its own and is rounded; otherwise their sum is, once. Raises
    SalesTaxError for a rate that is not from 0 to 30 percent and for an amount below zero, TypeError for a rate that
    is a binary fraction.
    """
    if isinstance(rate_percent, float):
        raise TypeError("A rate is a Decimal: 6.875 as a binary fraction is another number.")
    rate = Decimal(rate_percent)
    if not rate.is_finite() or not 0 <= rate <= MOST_PERCENT:
        raise out_of_range(str(rate_percent))
    if any(cents < 0 for cents in subtotals_cents):
        raise SalesTaxError("negative", gettext_noop("An amount below zero has no sales tax."))
    over, under = rate.as_integer_ratio()
    amounts = subtotals_cents if per_item else [sum(subtotals_cents)]
    # The third decimal is greater than four exactly where half a cent or more is left over.
    return sum((2 * cents * over + 100 * under) // (200 * under) for cents in amounts)


def out_of_range(typed: str) -> SalesTaxError:
    sentence = gettext_noop(
        "%(rate)s%% is no sales tax: a rate lies between 0 and %(most)s%%. Is a decimal point missing?"
    )
    return SalesTaxError("rate", sentence, rate=typed, most=MOST_PERCENT)


def parse_rate(text: str) -> int:
    """A rate as typed, `6.875` or `6.875 %`, in ten-thousandths of a percent.

    Raises SalesTaxError for what is no number, lies out of 0 to 30 percent, or has more than four decimals.
    """
    typed = text.strip().removesuffix("%").rstrip()
    match = _TYPED.fullmatch(typed)
    if match is None or typed in ("", "."):
        if re.fullmatch(r"[-\u2212\u2013]\s*[0-9.]+", typed):
            raise out_of_range(typed)
        raise SalesTaxError("not_a_rate", gettext_noop("%(typed)s is not a rate. Type it like 6.875."), typed=text)
    part = (match["part"] or "").rstrip("0")
    if len(part) > DECIMALS:
        raise SalesTaxError(
            "decimals", gettext_noop("%(typed)s has more than four digits after the point."), typed=typed
        )
    parts = int(match["whole"] or "0") * PARTS + int(part.ljust(DECIMALS, "0") or "0")
    if parts > MOST_PERCENT * PARTS:
        raise out_of_range(typed)
    return parts


def percent(parts: int) -> Decimal:
    """The rate in percent, from ten-thousandths of one."""
    return Decimal(parts) / PARTS


def rate_words(parts: int) -> str:
    """`6.875%`, without blind zeros."""
    return f"{percent(parts).normalize():f}%"
