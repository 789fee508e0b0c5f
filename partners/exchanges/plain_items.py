"""Plain items: what they are, how many are needed, and whether they last. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass

DECORATED = re.compile(r"(?:hand[- ]?)?(?:decorated|illustrated|painted|printed|stamped|colou?red)\s+(?=\w)", re.I)


def undecorated(what: str) -> str:
    """What `decorated flower pots` are made of: `flower pots`; empty where the name does not tell."""
    found = DECORATED.match(what)
    return what[found.end() :] if found else ""


def plain_needed(items: int, spare_percent: int) -> int:
    """So many plain items for `items` finished ones with spares, rounded up: 250 with 10 % spares are 275."""
    return -(-items * (100 + spare_percent) // 100)


@dataclass(frozen=True)
class Stock:
    """Plain items of one trade: `came` in, `done` and `spoiled` used up, `back` with the other side unused.

    `to_make` items are still to be made of them.
    """

    came: int
    done: int
    spoiled: int
    to_make: int
    back: int = 0

    @property
    def used(self) -> int:
        return self.done + self.spoiled

    @property
    def left(self) -> int:
        """Never below zero: who counted more than came had some plain items of their own."""
        return max(0, self.came - self.used - self.back)

    @property
    def short_by(self) -> int:
        """How many plain items are missing for what is still to be made, should nothing more be spoiled."""
        return max(0, self.to_make - self.left)
