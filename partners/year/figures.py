"""Figures of a year, without Django: who gave again, how long thanks took, how often a yes came, both sides kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

LEAST_ASKS = 5
"""A rate of fewer answers says nothing, and none is told."""

YES = frozenset({"yes", "some"})
NO_ANSWER_YET = "waiting"
KEPT = frozenset({"came", "that_was_all"})


def renewal_rate(last_year: Collection[Hashable], this_year: Collection[Hashable]) -> Fraction | None:
    """Of those who gave last year, the part that gave again; each giver counts once, however often they gave.

    None, and not zero, when nobody gave last year. (Donor retention as trade journals define it: 240 of 342 is 70.2 %.)

    >>> renewal_rate("ABCD", "BCEFG"), renewal_rate([], ["A"])
    (Fraction(1, 2), None)
    """
    before = set(last_year)
    return Fraction(len(before & set(this_year)), len(before)) if before else None


def median(counted: Mapping[int, int]) -> Fraction | None:
    """The middle of whole numbers, given as how often each comes; of an even number of them, halfway between the two
    in the middle. None of nothing.

    >>> median({1: 2, 4: 1, 9: 1}), median({})
    (Fraction(5, 2), None)
    """
    numbers = sum(counted.values())
    if not numbers:
        return None
    lower, upper, passed = None, 0, 0
    for value in sorted(counted):
        passed += counted[value]
        if lower is None and passed * 2 >= numbers:
            lower = value
        if passed * 2 > numbers:
            upper = value
            break
    return Fraction((lower or 0) + upper, 2)


@dataclass(frozen=True, slots=True)
class YesRate:
    """How often one kind of place said yes, also to a part, among the asks that were answered or given up."""

    kind: str
    yes: int
    asks: int

    @property
    def rate(self) -> Fraction | None:
        """None where there were too few to tell."""
        return Fraction(self.yes, self.asks) if self.asks >= LEAST_ASKS else None


def yes_rates(counted: Iterable[tuple[str, str, int]]) -> list[YesRate]:
    """By kind of place, the most asked first, from (kind, answer, how often). Asks that wait are not counted."""
    asks: dict[str, int] = defaultdict(int)
    yes: dict[str, int] = defaultdict(int)
    for kind, answer, number in counted:
        if answer != NO_ANSWER_YET:
            asks[kind] += number
            yes[kind] += number if answer in YES else 0
    return sorted((YesRate(kind, yes[kind], asks[kind]) for kind in asks), key=lambda one: (-one.asks, one.kind))


@dataclass(frozen=True, slots=True)
class BothSides:
    """Trades of a year: `kept` by both sides, `ours` and `theirs` where only that side did its part, `open` where
    something is still to come, `broken` where it never came from either side.
    """

    kept: int = 0
    ours: int = 0
    theirs: int = 0
    open: int = 0
    broken: int = 0

    @property
    def all(self) -> int:
        return self.kept + self.ours + self.theirs + self.open + self.broken


def fate(parts: Iterable[tuple[str, str]]) -> str:
    """What became of one trade, as a field of `BothSides`, from the (side, how it ended) of its promises.

    "" as the end is a promise that is still open. A side that promised nothing keeps its word.
    """
    ended: dict[str, list[bool]] = {"us": [], "them": []}
    for side, how in parts:
        if not how:
            return "open"
        ended[side].append(how in KEPT)
    us, them = all(ended["us"]), all(ended["them"])
    return {(True, True): "kept", (True, False): "ours", (False, True): "theirs"}.get((us, them), "broken")


def both_sides(parts: Iterable[tuple[int, str, str]]) -> BothSides:
    """From (trade, side, how it ended), one for each promise of the trades."""
    trades: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for trade, side, how in parts:
        trades[trade].append((side, how))
    found: dict[str, int] = defaultdict(int)
    for promises in trades.values():
        found[fate(promises)] += 1
    return BothSides(**found)
