"""What a grant has, line by line: planned, moved, spent, left."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet, Sum

from partners.funding.buying_models import LineKind, PurchaseLine
from partners.funding.grant_limits import line_left
from partners.funding.grant_models import Grant, GrantLine
from partners.ground.changes import Change


@dataclass(frozen=True)
class LineSum:
    """A line with its money in cents. `spent` is goods with their tax and shipping together, as the receipts say."""

    line: GrantLine
    moved_in: int
    moved_out: int
    spent_goods: int
    spent_shipping: int

    @property
    def planned(self) -> int:
        return self.line.planned_cents + self.line.shipping_cents

    @property
    def has(self) -> int:
        """What the line may cost after every agreed change."""
        return self.planned + self.moved_in - self.moved_out

    @property
    def moved(self) -> int:
        return self.moved_in - self.moved_out

    @property
    def spent(self) -> int:
        return self.spent_goods + self.spent_shipping

    @property
    def left(self) -> int:
        return line_left(
            planned=self.line.planned_cents,
            shipping=self.line.shipping_cents,
            moved_in=self.moved_in,
            moved_out=self.moved_out,
            spent=self.spent,
        )

    @property
    def is_over(self) -> bool:
        return self.left < 0


def line_sums(grant: Grant) -> list[LineSum]:
    """The grant's lines in order, each with its sums; three queries."""
    lines = list(grant.lines.select_related("need"))
    moved_out: dict[int, int] = {}
    moved_in: dict[int, int] = {}
    for line_id, to_line_id, cents in grant.changes.values_list("line_id", "to_line_id", "moved_cents"):
        if to_line_id is not None:
            moved_out[line_id] = moved_out.get(line_id, 0) + cents
            moved_in[to_line_id] = moved_in.get(to_line_id, 0) + cents
    spent = spent_by_line(grant.program, [line.pk for line in lines])
    return [
        LineSum(line, moved_in.get(line.pk, 0), moved_out.get(line.pk, 0), *spent.get(line.pk, (0, 0)))
        for line in lines
    ]


def spent_by_line(program: Any, line_ids: Iterable[int]) -> dict[int, tuple[int, int]]:
    """(goods with tax, shipping) that receipts charged to each line, by their own lines less tax that came back."""
    charged = program.purchase_lines.filter(grant_line_id__in=list(line_ids), purchase__bought_on__isnull=False)
    found: dict[int, tuple[int, int]] = {}
    for pk, kind, cents in charged.order_by().values_list("grant_line_id", "kind").annotate(total=Sum("cents")):
        goods, shipping = found.get(pk, (0, 0))
        found[pk] = (goods, shipping + cents) if kind == "shipping" else (goods + cents, shipping)
    for (pk, _purchase), back in tax_given_back(charged).items():
        goods, shipping = found[pk]
        found[pk] = (goods - back, shipping)
    return found


def tax_given_back(charged: QuerySet[PurchaseLine]) -> dict[tuple[int, int], int]:
    """(line of a grant, purchase) -> tax in cents that a shop gave back of what it charged there.

    A grant pays no tax that came back. What came back in part counts for the first lines of the receipt.
    """
    taxed = charged.filter(kind=LineKind.TAX, purchase__tax_back_cents__gt=0)
    purchases = list(taxed.order_by().values_list("purchase_id", flat=True))
    if not purchases:
        return {}
    wanted = set(charged.order_by().values_list("grant_line_id", flat=True))
    rows = PurchaseLine._base_manager.filter(purchase_id__in=purchases, kind=LineKind.TAX, grant_line__isnull=False)
    names = ("grant_line_id", "purchase_id", "cents", "purchase__tax_back_cents")
    left: dict[int, int] = {}
    found: dict[tuple[int, int], int] = {}
    for line, purchase, cents, back in rows.order_by("purchase_id", "position", "pk").values_list(*names):
        part = min(cents, left.setdefault(purchase, back))
        left[purchase] -= part
        if part and line in wanted:
            found[line, purchase] = found.get((line, purchase), 0) + part
    return found


def sum_again(book: Change, grant: Grant) -> None:
    """Work out what is spent of the grant and of each of its lines, after receipts changed; part of the open change."""
    lines = list(grant.lines.all())
    spent = spent_by_line(grant.program, [line.pk for line in lines])
    for line in lines:
        book.update(line, spent_cents=sum(spent.get(line.pk, (0, 0))))
    stored = Grant._base_manager.get(pk=grant.pk)
    book.update(grant, seen=stored.version, spent_cents=sum(line.spent_cents for line in lines))
