"""What the record keeps ready of a purchase: sums of its receipt, and the days that follow from it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from partners.funding.buying_models import Payer, Purchase, PurchaseLine
from partners.funding.buying_rules import (
    ClaimDay,
    ReceiptLine,
    charged_tax_cents,
    claim_day,
    expected_tax_cents,
    repay_day,
    tax_back_day,
    tax_saved_cents,
    total_cents,
)
from partners.funding.state_rules import Answer, Verdict, state_code, who_may_pay


def plain(lines: Iterable[PurchaseLine]) -> list[ReceiptLine]:
    return [ReceiptLine(line.kind, line.cents, line.taxable) for line in lines]


def verdict_of(purchase: Purchase, *, certificate: bool | None = None) -> Verdict:
    """Whether it is exempt, by its state's rule; `certificate` asks as if one were shown or not."""
    return who_may_pay(
        state=purchase.state,
        payer=purchase.payer,
        school_state=state_code(purchase.school.state) if purchase.school else "",
        authorised_agent=purchase.authorised_agent,
        certificate=purchase.certificate_id is not None if certificate is None else certificate,
    )


def expected_of(purchase: Purchase, lines: Iterable[PurchaseLine]) -> int | None:
    """The tax without a certificate; None where no rate is known."""
    if purchase.tax_rate is None:
        return None
    return expected_tax_cents(plain(lines), purchase.tax_rate, purchase.tax_per_item)


def sums(purchase: Purchase, lines: Iterable[PurchaseLine]) -> dict[str, Any]:
    """Total, tax and tax saved, by their columns; all from the lines, the rate and whether a certificate was shown."""
    if purchase.bought_on is None:
        return {"total_cents": None, "tax_cents": 0, "tax_saved_cents": 0}
    shown = plain(lines)
    charged = charged_tax_cents(shown)
    saved = tax_saved_cents(
        expected=expected_tax_cents(shown, purchase.tax_rate or 0, purchase.tax_per_item),
        charged=charged,
        came_back=purchase.tax_back_cents or 0,
        exempt=purchase.certificate_id is not None,
    )
    return {"total_cents": total_cents(shown), "tax_cents": charged, "tax_saved_cents": saved}


def claim_of(purchase: Purchase, fiscal_year_starts: int) -> ClaimDay | None:
    """Until when the receipt has to be in the office; None before it is bought."""
    if purchase.bought_on is None:
        return None
    days = purchase.school.claim_days if purchase.school else None
    return claim_day(purchase.bought_on, days, fiscal_year_starts)


def claim_due(purchase: Purchase, fiscal_year_starts: int) -> dict[str, date | None]:
    found = claim_of(purchase, fiscal_year_starts)
    return {"claim_due": found.day if found else None}


def repay_due(purchase: Purchase) -> dict[str, date | None]:
    """Only own money comes back."""
    if purchase.handed_in_on is None or purchase.payer != Payer.OWN:
        return {"repay_due": None}
    return {"repay_due": repay_day(purchase.handed_in_on, purchase.school.repay_days if purchase.school else 30)}


def is_flagged(purchase: Purchase) -> bool:
    """Tax was charged although a certificate was shown, and the state's rule does not say that it is due."""
    return (
        purchase.certificate_id is not None
        and purchase.tax_cents > 0
        and verdict_of(purchase).answer is not Answer.TAXED
    )


def tax_back_due(purchase: Purchase) -> dict[str, date | None]:
    """Until when to ask for it; a day that stands already stays."""
    if purchase.bought_on is None or not is_flagged(purchase):
        return {"tax_back_due": None}
    return {"tax_back_due": purchase.tax_back_due or tax_back_day(purchase.bought_on)}
