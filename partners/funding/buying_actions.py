"""Verbs of buying: the slip, the receipt, handing in, the money back, the tax back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.funding.buying_facts import claim_due, repay_due, sums, tax_back_due
from partners.funding.buying_models import LineKind, Purchase, PurchaseLine
from partners.funding.grant_models import Grant, GrantLine
from partners.funding.grant_sums import sum_again
from partners.ground.changes import Change, change
from partners.program.desk import Desk
from partners.wish_list.models import Need


@dataclass(frozen=True, kw_only=True)
class Bought:
    """One line of a receipt; a discount is below zero. `quantity` counts single pieces, as the wish list does."""

    what: str
    cents: int
    kind: str = LineKind.ITEM
    quantity: int | None = None
    taxable: bool = True
    need: Need | None = None
    grant_line: GrantLine | None = None


def write_slip(*, desk: Desk, vendor: str, what: str, **values: Any) -> Purchase:
    """What is to be bought, before it is. `values` are further columns of Purchase by name."""
    with change(desk, gettext_noop("Slip for buying at %(vendor)s: %(what)s"), vendor=vendor, what=what) as book:
        values.setdefault("slip_on", desk.day)
        return book.add(Purchase(vendor=vendor, what=what, **values))


def edit_slip(*, desk: Desk, purchase: Purchase, seen: int | None = None, **values: Any) -> Purchase:
    """The slip is put right. What follows from who pays, the certificate or the school is worked out anew."""
    with change(desk, gettext_noop("Slip for buying at %(vendor)s changed"), vendor=purchase.vendor) as book:
        book.update(purchase, seen=seen, **values)
        _follow(book, desk, purchase)
        return purchase


def call_off(*, desk: Desk, purchase: Purchase, day: date) -> Purchase:
    with change(desk, gettext_noop("Not bought after all: %(purchase)s"), purchase=purchase) as book:
        return book.update(purchase, called_off_on=day)


def record_receipt(
    *, desk: Desk, purchase: Purchase, lines: Sequence[Bought], seen: int | None = None, **values: Any
) -> Purchase:
    """It was bought, and this is the receipt; or the receipt is put right. All its lines are as `lines` says.

    The total is the sum of the lines. Every grant that a line charges, or charged before, is summed again.
    """
    words = gettext_noop("Receipt of %(purchase)s")
    with change(desk, words, purchase=purchase) as book, book.with_parts(purchase):
        before = list(purchase.lines.select_related("grant_line"))
        touched = {line.grant_line.grant_id for line in before if line.grant_line}
        total = sum(line.cents for line in lines)
        book.update(purchase, seen=seen, **{**values, "total_cents": total, "called_off_on": None})
        book.about(purchase)
        _replace(book, purchase, before, lines)
        _follow(book, desk, purchase)
        touched |= {line.grant_line.grant_id for line in lines if line.grant_line}
        _sum_grants(book, desk, touched)
        return purchase


def hand_in(*, desk: Desk, purchase: Purchase, day: date) -> Purchase:
    """The receipt is in the office; own money is expected back from then on."""
    with change(desk, gettext_noop("Receipt handed in: %(purchase)s"), purchase=purchase) as book:
        book.update(purchase, handed_in_on=day)
        return book.update(purchase, repay_due=repay_due(purchase)["repay_due"])


def repay(*, desk: Desk, purchase: Purchase, day: date, cents: int) -> Purchase:
    """The money is back, all of it or what the office gave."""
    with change(desk, gettext_noop("Repaid: %(purchase)s"), purchase=purchase) as book:
        return book.update(purchase, repaid_on=day, repaid_cents=cents)


def not_ask_back(*, desk: Desk, purchase: Purchase) -> Purchase:
    """The teacher lets the money go; it stays out of pocket."""
    with change(desk, gettext_noop("Not asked back: %(purchase)s"), purchase=purchase) as book:
        return book.update(purchase, not_claimed=True)


def tax_came_back(*, desk: Desk, purchase: Purchase, day: date, cents: int) -> Purchase:
    """The shop gave back tax that it had charged without need; a grant that paid it has that money again."""
    with change(desk, gettext_noop("Tax came back: %(purchase)s"), purchase=purchase) as book:
        book.update(purchase, tax_back_on=day, tax_back_cents=cents)
        book.update(purchase, **sums(purchase, purchase.lines.all()))
        charged = purchase.lines.filter(grant_line__isnull=False)
        _sum_grants(book, desk, charged.values_list("grant_line__grant_id", flat=True))
        return purchase


def let_tax_go(*, desk: Desk, purchase: Purchase) -> Purchase:
    with change(desk, gettext_noop("Tax let go: %(purchase)s"), purchase=purchase) as book:
        return book.update(purchase, tax_let_go=True)


def move_claim(*, desk: Desk, purchase: Purchase, due: date) -> Purchase:
    """The office takes the receipt until another day."""
    with change(desk, gettext_noop("Receipt to hand in by %(due)s: %(purchase)s"), due=due, purchase=purchase) as book:
        return book.update(purchase, claim_due=due, claim_day_named=True)


def move_repayment(*, desk: Desk, purchase: Purchase, due: date) -> Purchase:
    """The office named another day for the money."""
    with change(desk, gettext_noop("Money expected by %(due)s: %(purchase)s"), due=due, purchase=purchase) as book:
        return book.update(purchase, repay_due=due, repay_day_named=True)


def move_tax_back(*, desk: Desk, purchase: Purchase, due: date) -> Purchase:
    with change(desk, gettext_noop("Tax to ask back by %(due)s: %(purchase)s"), due=due, purchase=purchase) as book:
        return book.update(purchase, tax_back_due=due)


def _replace(book: Change, purchase: Purchase, before: Sequence[PurchaseLine], lines: Sequence[Bought]) -> None:
    """Lines are kept where they stand in the same place, so that putting one right is a change and no new line."""
    for place, line in enumerate(lines):
        values = {**vars(line), "position": place + 1}
        if place < len(before):
            book.update(before[place], **values)
        else:
            book.add(PurchaseLine(purchase=purchase, **values))
    for left in before[len(lines) :]:
        book.remove(left)


def _follow(book: Change, desk: Desk, purchase: Purchase) -> None:
    """Sums and days that follow from the receipt; days that are settled, or that somebody named, stay."""
    if purchase.bought_on is None:
        return
    values = sums(purchase, purchase.lines.all())
    purchase.tax_cents = values["tax_cents"]
    values |= tax_back_due(purchase)
    if purchase.handed_in_on is None and not purchase.claim_day_named:
        values |= claim_due(purchase, desk.program.fiscal_year_starts)
    if purchase.repaid_on is None and not purchase.repay_day_named:
        values |= repay_due(purchase)
    book.update(purchase, **values)


def _sum_grants(book: Change, desk: Desk, touched: Iterable[int]) -> None:
    for grant in Grant.objects.filter(program=desk.program, pk__in=touched).order_by("pk"):
        sum_again(book, grant)
