"""What is typed into the forms of buying."""

from __future__ import annotations

from partners.program.models import Program
from tests import people
from tests.whole_site.attempt import Attempt

BOUGHT = "2027-01-11"


def not_bought_yet(program: Program) -> None:
    program.purchase_lines.all().delete()
    program.purchases.update(bought_on=None, total_cents=None)


def own_money(program: Program) -> None:
    program.purchases.update(payer="own", repay_day_named=True, total_cents=1250, bought_on=people.TUESDAY)


def tax_charged(program: Program) -> None:
    program.purchases.update(tax_cents=100, bought_on=people.TUESDAY)


PAGE = "funding:purchase-detail"
# Lines that are charged to no grant, on a day of no consequence.
RECEIPT = {
    "bought_on": BOUGHT, "line-0-what": "clay", "line-0-cents": "12.50", "line-0-grant_line": "",
    "total_cents": "12.50",
    "discount": "", "shipping": "", "tax_charged": "", "heeded": "on",
}  # fmt: skip
ATTEMPTS = {
    "funding:certificate-edit": Attempt({"state": "MN", "number": "EX-1", "valid_from": "", "valid_until": ""}),
    "funding:certificate-end": Attempt(page="funding:certificate-list"),
    "funding:certificate-new": Attempt({"state": "MN", "number": "EX-2"}),
    "funding:purchase-call-off": Attempt(before=not_bought_yet, page=PAGE),
    "funding:purchase-edit": Attempt({"what": "white clay", "state": "", "certificate": ""}),
    "funding:purchase-handed-in": Attempt({"in-day": "2027-01-12"}, page=PAGE),
    "funding:purchase-new": Attempt({"shop": "Corner Art Supply", "what": "clay", "payer": "order"}),
    "funding:purchase-not-asked": Attempt(before=own_money, page=PAGE),
    "funding:purchase-receipt": Attempt(RECEIPT),
    "funding:purchase-repaid": Attempt({"back-cents": "10", "back-day": BOUGHT}, before=own_money, page=PAGE),
    "funding:purchase-tax-back": Attempt({"tax-cents": "0.50", "tax-day": BOUGHT}, before=tax_charged, page=PAGE),
    "funding:purchase-tax-let-go": Attempt(before=tax_charged, page=PAGE),
    "school:school-buying": Attempt({"tax_rate": "6.875", "claim_days": "20", "repay_days": "30"}),
}
