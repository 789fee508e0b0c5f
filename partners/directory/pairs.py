"""Which partners of a whole book may be one: every two that share a sign are compared. Pure.

Compared with everybody else a book of 40,000 would take 800 million comparisons. Two that are one share a phone, a web
address, a street, a word of their name that few others have, or stand near each other in the order of names.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from partners.directory.duplicates import Described, Likely, likely_same

# A sign that more partners share (the phone of a mall) says nothing; near by in the order of names is this far.
MOST_SHARING, NEAR = 25, 4


@dataclass(frozen=True, slots=True)
class Pair:
    """Two numbers, the smaller first: it was written down earlier."""

    first: int
    second: int
    likely: Likely


def likely_pairs(partners: Iterable[Described], not_same: Collection[tuple[int, int]] = ()) -> list[Pair]:
    """The likeliest first. A partner with several names is there once for each; `not_same` are known to be two."""
    named = [one for one in partners if one.pk is not None]
    looked: set[tuple[int, int]] = set()
    best: dict[tuple[int, int], Likely] = {}
    for block in _blocks(named):
        for one, other in _twos(block):
            place = (id(one), id(other))
            if place in looked:
                continue
            looked.add(place)
            numbers = _numbers(one, other)
            found = next(iter(likely_same(one, [other])), None)
            if found and numbers not in not_same and (numbers not in best or best[numbers].strength < found.strength):
                best[numbers] = found
    pairs = [Pair(first, second, likely) for (first, second), likely in best.items()]
    return sorted(pairs, key=lambda pair: (-pair.likely.strength, pair.first, pair.second))


def _numbers(one: Described, other: Described) -> tuple[int, int]:
    first, second = sorted((one.pk or 0, other.pk or 0))
    return first, second


def _blocks(named: list[Described]) -> Iterator[list[Described]]:
    sharing: dict[tuple[str, str], list[Described]] = defaultdict(list)
    for one in named:
        for sign in _signs(one):
            sharing[sign].append(one)
    yield from (block for block in sharing.values() if 1 < len(block) <= MOST_SHARING)
    in_order = sorted(named, key=lambda one: one.key)
    yield from (in_order[at : at + NEAR] for at in range(len(in_order)))


def _signs(one: Described) -> Iterator[tuple[str, str]]:
    signs = [("phone", one.phone), ("web", one.web), ("street", one.address.partition("|")[0])]
    signs += [("word", word) for word in one.key.split()]
    return ((kind, sign) for kind, sign in signs if sign)


def _twos(block: list[Described]) -> Iterator[tuple[Described, Described]]:
    for at, one in enumerate(block):
        for other in block[at + 1 :]:
            if one.pk != other.pk:
                yield (one, other) if id(one) < id(other) else (other, one)
