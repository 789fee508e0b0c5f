"""What becomes of each row of a file, before anything is written. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from partners.ground.plain import PlainError, gettext_noop
from partners.story.columns import Line

TWICE = gettext_noop("%(what)s stands in row %(row)s already.")
OTHER_ADDRESS = gettext_noop(
    "%(name)s is in the book with another address. If it is the same place, put the address right there first."
)
MAY_BE = gettext_noop("May be %(name)s, which is in the book: %(why)s. If so, write that name into the file.")
NEW_PARTNER = gettext_noop("%(name)s is not in the book yet and is added as a partner.")


class Becomes(StrEnum):
    """`LEFT`: is in the book already, and what differs is put right on its own page."""

    WRONG = "wrong"
    NEW = "new"
    CHANGED = "changed"
    SAME = "same"
    LEFT = "left"


@dataclass
class Planned:
    """One row. `pk` is the row of the book that it is about; `spot` its partner: a number of the book, or one below
    zero for a new one of the plan. `changes` are the values to set on a row that is known, `before` those it has;
    `keys` are the key columns of a new partner.
    """

    line: Line
    title: str = ""
    pk: int | None = None
    spot: int = 0
    values: dict[str, Any] = field(default_factory=dict)
    changes: dict[str, Any] = field(default_factory=dict)
    before: dict[str, Any] = field(default_factory=dict)
    keys: dict[str, str] = field(default_factory=dict)
    remarks: list[PlainError] = field(default_factory=list)
    left: bool = False
    first: Planned | None = None

    @property
    def becomes(self) -> Becomes:
        if self.line.wrong:
            return Becomes.WRONG
        if self.left or (self.first is not None and self.first.left):
            return Becomes.LEFT
        if self.pk is None:
            return Becomes.NEW
        return Becomes.CHANGED if self.changes else Becomes.SAME


@dataclass
class Plan:
    """`wrong` is about the whole file. `new_partners` are the values of each by its number below zero."""

    kind: str
    rows: list[Planned] = field(default_factory=list)
    wrong: list[PlainError] = field(default_factory=list)
    new_partners: dict[int, dict[str, Any]] = field(default_factory=dict)

    @property
    def is_right(self) -> bool:
        return bool(self.rows) and not self.wrong and not any(row.line.wrong for row in self.rows)

    def count(self, *becomes: Becomes) -> int:
        return sum(row.becomes in becomes for row in self.rows)


def compare(row: Planned, stored: Mapping[str, Any], names: Sequence[str]) -> None:
    """What the file says otherwise than the book. What it does not say stays."""
    for name in names:
        if name in row.values and row.values[name] != stored[name]:
            row.changes[name], row.before[name] = row.values[name], stored[name]


def twice(row: Planned, what: str, number: int, name: str) -> None:
    row.line.refuse(PlainError("twice", TWICE, what=what, row=number), name)
