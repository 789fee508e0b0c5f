"""What the sheets of the year are told: numbers and the teacher's own sentences."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from outreach.page import Letterhead
from outreach.wording.own_words import HOUSE, OwnWords

PRINCIPAL, BOARD, PARTNERS = "principal", "board", "partners"


@dataclass(frozen=True)
class Worth:
    """What the helpers' hours are worth, in cents, and whose figure that is."""

    cents: int
    each_cents: int
    year: int
    source: str


@dataclass(frozen=True)
class Research:
    """One careful sentence with its source; `kind` is "experiment" or "association"."""

    sentence: str
    source: str
    year: int
    kind: str
    limits: str


@dataclass(frozen=True)
class Facts:
    """What is counted of one year; what is nought or empty vanishes. Money is in cents.

    `promised` and `kept` are promises of partners and of the school whose day has come. `worth_unknown`: it was to be
    said, and nobody published a figure of that year. `months` are asks, what came and thanks in each month from `first`
    on. `names` are those who may be named to these readers, `others` how many more there were.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    year: str
    first: date
    last: date
    readers: str = PRINCIPAL
    teacher: str = ""
    role: str = ""
    students: int = 0
    classes: int = 0
    gifts: tuple[tuple[str, int], ...] = ()
    families: int = 0
    trades: int = 0
    trades_kept: int = 0
    trades_open: int = 0
    promised: tuple[int, int] = (0, 0)
    kept: tuple[int, int] = (0, 0)
    helpers: int = 0
    minutes: int = 0
    worth: Worth | None = None
    worth_unknown: bool = False
    grants_asked: int = 0
    grants_asked_cents: int = 0
    grants_awarded: int = 0
    grants_awarded_cents: int = 0
    grants_spent_cents: int = 0
    grants_back_cents: int = 0
    thanks_owed: int = 0
    thanks_said: int = 0
    thanks_days: Decimal | None = None
    gave_before: int = 0
    gave_again: int = 0
    pocket_cents: int = 0
    months: tuple[tuple[int, ...], ...] = ()
    became: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    others: int = 0
    research: Research | None = None
    amounts: bool = True
    wording: OwnWords = HOUSE

    @property
    def of_money(self) -> bool:
        """Whether these readers are told of money, and amounts are for who opens the sheet."""
        return self.amounts and self.readers != PARTNERS
