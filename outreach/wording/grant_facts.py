"""What the sheets of a grant have in common: its lines planned beside spent, its receipts, what was agreed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class BudgetLine:
    """One line in cents: as planned with tax, with what moved in or out by agreement, and as receipts charged it."""

    what: str
    quantity: int | None = None
    planned: int = 0
    shipping: int = 0
    moved: int = 0
    spent: int = 0
    shipped: int = 0

    @property
    def has(self) -> int:
        """What the line may cost, shipping included."""
        return self.planned + self.shipping + self.moved

    @property
    def paid(self) -> int:
        return self.spent + self.shipped

    @property
    def left(self) -> int:
        return self.has - self.paid


@dataclass(frozen=True)
class Charged:
    """One line of a receipt that the grant pays; `kind` is item, shipping, tax, tax_back or discount.

    Cents; below zero where something is taken off.
    """

    what: str
    cents: int
    kind: str = "item"


@dataclass(frozen=True)
class Receipt:
    day: date
    shop: str
    number: str = ""
    lines: tuple[Charged, ...] = ()

    @property
    def cents(self) -> int:
        return sum(line.cents for line in self.lines)


@dataclass(frozen=True)
class Agreed:
    """A change somebody at the grantmaker agreed to: other words for a line, or money moved to another."""

    by: str
    on: date
    was: str = ""
    becomes: str = ""
    cents: int = 0
    line: str = ""
    to_line: str = ""
