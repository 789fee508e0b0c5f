"""The figures behind a letter for a gift, from published US rules. All money is whole US cents.

Not tax advice: the district's rules and the giver's own adviser decide. What a letter must and must not say is decided
in `letter_rules`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from partners.ground.reference import reference

ACKNOWLEDGED_FROM = 250_00
DISCLOSED_ABOVE = 75_00
FORM_8283_ABOVE = 500_00
FORM_8283_ABOVE_FOR_CORPORATIONS = 5_000_00
CENTS_PER_MILE = 14

Token = Literal["share", "item", "none", "not_available"]


@dataclass(frozen=True, slots=True)
class TokenLimits:
    """One year's limits: cost of a low-cost article, the payment it needs, and the cap of the harbour by share."""

    article_cents: int
    minimum_cents: int
    cap_cents: int


def gift_part_cents(payment_cents: int, given_back_cents: int) -> int:
    """What of a payment is a gift: the payment less the fair value of what was given back, never below zero.

    IRS "Quid pro quo contributions"; 26 CFR 1.170A-1(h). Raises ValueError for negative amounts.
    """
    _no_negatives(payment_cents, given_back_cents)
    return max(0, payment_cents - given_back_cents)


def needs_acknowledgment(payment_cents: int) -> bool:
    """Whether the giver needs a written acknowledgment: a single contribution of 250.00 or more.

    26 USC 170(f)(8)(A); gifts are never added up to reach it, 26 CFR 1.170A-13(f)(1). Raises ValueError for a negative
    amount.
    """
    _no_negatives(payment_cents)
    return payment_cents >= ACKNOWLEDGED_FROM


def is_above_75(payment_cents: int) -> bool:
    """The test of 26 USC 6115(a), on each payment alone and not on its gift part (H.R. Rep. 103-213 n. 36)."""
    _no_negatives(payment_cents)
    return payment_cents > DISCLOSED_ABOVE


def is_partly_gift(payment_cents: int, given_back_cents: int) -> bool:
    """Whether a payment is partly a gift and partly for something; bought at its price is no gift.

    26 USC 6115(b); IRS "Quid pro quo contributions".
    """
    _no_negatives(payment_cents, given_back_cents)
    return 0 < given_back_cents < payment_cents


def disclosure_required(payment_cents: int, given_back_cents: int, governmental: bool) -> bool:
    """Whether the law makes the receiver tell the estimate of what it gave back: for a payment above 75.00.

    26 USC 6115(a), which does not bind governmental units such as a public school. Token items are the caller's to
    leave out first, see `token_harbour`. Raises ValueError for negative amounts.
    """
    return is_partly_gift(payment_cents, given_back_cents) and is_above_75(payment_cents) and not governmental


def token_limits(year: int) -> TokenLimits | None:
    """The year's limits, or None where the table lacks it: another year's are never used. Rev. Proc. 90-12."""
    row = reference("token_limits")["years"].get(str(year))
    return TokenLimits(row["article"], row["minimum"], row["cap"]) if row else None


def share_limit_cents(year: int, payment_cents: int) -> int | None:
    """The most that benefits may be worth in the harbour by share: the lesser of 2 % and the cap; None without a table.

    Rev. Proc. 90-12 section 3.01(2)(a). A part of a cent is cut.
    """
    _no_negatives(payment_cents)
    limits = token_limits(year)
    return min(payment_cents * 2 // 100, limits.cap_cents) if limits else None


def token_harbour(
    year: int, payment_cents: int, estimate_cents: int | None, cost_cents: int | None, bears_name: bool
) -> Token:
    """Which harbour makes what was given back a token, so that the full payment counts.

    `share`: its fair value is within `share_limit_cents`. `item`: the payment reaches the minimum, the items bear the
    receiver's name or logo, and together cost no more than a low-cost article. None for an unknown value or cost.
    Rev. Proc. 90-12 section 3.01(2)(a) and (b).
    """
    limits, share = token_limits(year), share_limit_cents(year, payment_cents)
    if limits is None or share is None:
        return "not_available"
    if estimate_cents is not None and estimate_cents <= share:
        return "share"
    enough = payment_cents >= limits.minimum_cents
    if enough and bears_name and cost_cents is not None and cost_cents <= limits.article_cents:
        return "item"
    return "none"


def is_contemporaneous(letter_on: date, return_due_on: date, return_filed_on: date | None = None) -> bool:
    """Whether a letter came in time: by the day of filing, or the due day with extensions if that is earlier.

    26 USC 170(f)(8)(C).
    """
    return letter_on <= min(return_due_on, return_filed_on or return_due_on)


def form_8283_note(noncash_total_cents: int, corporation: bool = False) -> bool:
    """Whether the giver files Form 8283: non-cash gifts of the year above 500.00, a C corporation's above 5,000.00.

    Instructions for Form 8283.
    """
    _no_negatives(noncash_total_cents)
    return noncash_total_cents > (FORM_8283_ABOVE_FOR_CORPORATIONS if corporation else FORM_8283_ABOVE)


def mileage_cents(miles: Decimal) -> int:
    """Driving for the school at 14 cents a mile, half a cent rounded up. 26 USC 170(i); Notice 2026-10."""
    if miles < 0:
        raise ValueError("miles cannot be negative")
    return int((miles * CENTS_PER_MILE).quantize(Decimal(1), ROUND_HALF_UP))


def _no_negatives(*cents: int) -> None:
    if any(amount < 0 for amount in cents):
        raise ValueError("amounts cannot be negative")
