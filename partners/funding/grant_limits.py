"""What a grantmaker's terms say against one purchase: the award, the days, the lines. Pure; words are in `grant_rules`.

That nothing is bought before the award, that a budget is kept line by line, and that money is spent within the award's
days is common practice of grantmakers; the terms of the one grant decide.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum


@dataclass(frozen=True)
class Charge:
    """What a receipt charges to one line of a grant, in cents, all it charges to that line together.

    `line_left_cents` is what was left of the line before it, None where no line is named; `what` is the line's name.
    """

    line_left_cents: int | None
    cents: int
    what: str = ""

    @property
    def over_cents(self) -> int:
        """How far the line is over its plan afterwards; 0 where it is not, and where the charge takes nothing."""
        if self.line_left_cents is None or self.cents <= 0:
            return 0
        return max(0, self.cents - self.line_left_cents)


class Against(StrEnum):
    NOT_ASKED = "not_asked"
    NOT_ANSWERED = "not_answered"
    REFUSED = "refused"
    TOO_EARLY = "too_early"
    TOO_LATE = "too_late"
    FULL = "full"


BEFORE_AWARD = {"planned": Against.NOT_ASKED, "asked": Against.NOT_ANSWERED, "refused": Against.REFUSED}


@dataclass(frozen=True)
class Concern:
    """One thing that speaks against it: the day it is about, or the line that is over and how far."""

    what: Against
    day: date | None = None
    charge: Charge | None = None


def concerns(
    *, bought_on: date, state: str, buy_from: date | None, spend_by: date | None, charges: Sequence[Charge]
) -> list[Concern]:
    """Everything that speaks against a purchase on `bought_on`; `buy_from` and `spend_by` are days still in time."""
    found = []
    if state in BEFORE_AWARD:
        found.append(Concern(BEFORE_AWARD[state]))
    if buy_from is not None and bought_on < buy_from:
        found.append(Concern(Against.TOO_EARLY, day=buy_from))
    if spend_by is not None and bought_on > spend_by:
        found.append(Concern(Against.TOO_LATE, day=spend_by))
    return found + [Concern(Against.FULL, charge=charge) for charge in charges if charge.over_cents]


def line_left(*, planned: int, shipping: int, moved_in: int, moved_out: int, spent: int) -> int:
    """What is left of a line in cents; below zero where more was charged to it than it has."""
    return planned + shipping + moved_in - moved_out - spent


# Each day, and what it may not lie before: a slip of the year shows here.
ORDER: tuple[tuple[str, str], ...] = (
    ("answer_by", "asked_on"),
    ("answered_on", "asked_on"),
    ("spend_by", "buy_from"),
    ("spend_by", "answered_on"),
    ("claim_by", "buy_from"),
    ("claim_by", "answered_on"),
    ("report_due", "buy_from"),
    ("report_due", "answered_on"),
    ("claimed_on", "answered_on"),
    ("reported_on", "answered_on"),
)


def out_of_order(days: Mapping[str, date | None]) -> list[tuple[str, str]]:
    """(day, the day it lies before) for each pair of a grant's days that stand in the wrong order, each day once."""
    found: dict[str, str] = {}
    for later, earlier in ORDER:
        after, before = days.get(later), days.get(earlier)
        if after is not None and before is not None and after < before:
            found.setdefault(later, earlier)
    return list(found.items())


def not_in_lines(asked: int | None, lines: Sequence[int]) -> int:
    """How much of what is asked stands in no line; below zero where the lines come to more. Cents; 0 without lines."""
    return asked - sum(lines) if asked is not None and lines else 0
