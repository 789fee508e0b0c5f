"""What is counted of a year, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from partners.helpers.figures import YearFigures
from partners.year.figures import BothSides, YesRate
from partners.year.span import Span


@dataclass(frozen=True, slots=True)
class Reached:
    """The classes of one school at the end of the school year, or as they are in this one."""

    school: str
    classes: int
    students: int


@dataclass(frozen=True, slots=True)
class Promised:
    """Promises of one side that were due in the year, by how they ended."""

    kept: int = 0
    to_come: int = 0
    past: int = 0
    never: int = 0

    @property
    def all(self) -> int:
        return self.kept + self.to_come + self.past + self.never

    @property
    def was_due(self) -> int:
        """Kept, or past its day: what is still to come is nobody's broken word."""
        return self.kept + self.past + self.never


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing that was promised to us: how many, and how many came."""

    what: str
    unit: str
    promised: int
    received: int


@dataclass(frozen=True, slots=True)
class Granted:
    """Grants of the year: `asked` and `refused` by the day of asking or answer; money in cents, of those awarded;
    `back_cents` went back unspent."""

    asked: int = 0
    asked_cents: int = 0
    awarded: int = 0
    awarded_cents: int = 0
    spent_cents: int = 0
    back_cents: int = 0
    refused: int = 0

    @property
    def left_cents(self) -> int:
        return self.awarded_cents - self.spent_cents - self.back_cents


@dataclass(frozen=True, slots=True)
class Renewal:
    """Partners that gave in the year before, and those of them that gave in this one too."""

    before: int
    again: int
    rate: Fraction | None


@dataclass(frozen=True, slots=True)
class Thanked:
    """Thanks that arose in the year, those said by now, and the middle of the days that it took."""

    owed: int
    said: int
    days: Fraction | None


@dataclass(frozen=True, slots=True)
class Gifts:
    """Gifts of the year: by form, those of families, and how often something came as part of a trade."""

    forms: dict[str, int]
    families: int
    in_trades: int

    @property
    def all(self) -> int:
        return sum(self.forms.values())


@dataclass(frozen=True)
class YearRecord:
    """Everything that is counted of a year. `pocket_cents` and `rates` are for who writes; nobody else is told."""

    span: Span
    reached: list[Reached]
    months: dict[str, list[int]]
    gifts: Gifts
    renewal: Renewal
    trades: BothSides
    promised: dict[str, Promised]
    things: list[Thing]
    hours: YearFigures
    granted: Granted
    thanked: Thanked
    became: list[Any]
    rates: list[YesRate]
    pocket_cents: int

    @property
    def students(self) -> int:
        return sum(one.students for one in self.reached)

    @property
    def is_empty(self) -> bool:
        """Nothing happened in it that is written down."""
        counted = (self.gifts.all, self.gifts.in_trades, self.trades.all, self.hours.helpers, self.granted.asked)
        promised = sum(one.all for one in self.promised.values())
        months = sum(sum(one) for one in self.months.values())
        return not any((*counted, promised, months, self.granted.awarded, self.pocket_cents, self.became))
