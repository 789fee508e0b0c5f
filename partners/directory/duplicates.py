"""Is this partner in the book already? Name, phone, address and web compared as typed and normalised.

Nothing here asks the database. `narrowed` says which indexed columns to ask for candidates; up to some thousands of
partners it is simpler, and catches more, to compare with all of them: 5,000 take about 10 ms, see
tests/directory/test_duplicates.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from partners.directory.addresses import same_place
from partners.directory.likeness import core_of, key_likeness
from partners.ground.names import name_key

Why = Literal[
    "same_name",
    "same_name_otherwise_written",
    "alike_name",
    "name_within_name",
    "same_phone",
    "same_address",
    "same_building",
    "same_web",
]

# How far each reason alone speaks for the same partner. Common practice: set so that one phone, one web address or one
# name warns, and that a name within a name, or one address that shops may share, warns in company or at the margin.
_WEIGHTS: dict[Why, float] = {
    "same_name": 0.9,
    "same_name_otherwise_written": 0.85,
    "alike_name": 0.65,
    "name_within_name": 0.5,
    "same_phone": 0.85,
    "same_address": 0.5,
    "same_building": 0.2,
    "same_web": 0.8,
}
WARN_AT = 0.5
# A slip of one or two letters in a name of eight or more stays above this; see the pairs in the tests.
_ALIKE = 0.9
# Words that many names share: alone they make no name.
_COMMON_WORDS = """
and of the for at in art arts bakery bank bar cafe center centre church city club coffee community county credit
deli diner downtown farm first flower flowers foundation framing friends garden gardens gallery grocery guild
hardware house kitchen library lumber main market music office paint park pizza print printing public restaurant
school second services shop society store street studio supply union
"""
_COMMON = frozenset(_COMMON_WORDS.split())


@dataclass(frozen=True, slots=True)
class Described:
    """What the book knows of a partner, in keys: `name_key`, `phone_key`, `address_key`, `web_key`; "" for unknown.

    The name's key is made from `name` where it is not given. Keys hold what was typed where it cannot be normalised,
    so that equal text always has equal keys.
    """

    pk: int | None
    name: str
    key: str = ""
    phone: str = ""
    address: str = ""
    web: str = ""


@dataclass(frozen=True, slots=True)
class Likely:
    """A partner that may be the same one; `strength` from WARN_AT to below 1."""

    pk: int | None
    why: tuple[Why, ...]
    strength: float


@dataclass(frozen=True, slots=True)
class Narrowed:
    """Where candidates are found by index: any key that begins with one of `name_starts`, or equals one of the others.

    `address_start` is what an address key begins with, whatever its unit. Empty means: do not ask for that column.
    """

    name_starts: tuple[str, ...]
    phone: str
    address_start: str
    web: str


def likely_same(candidate: Described, others: Iterable[Described]) -> list[Likely]:
    """Those of `others` that may be the candidate, the likeliest first; never the candidate's own row."""
    key = candidate.key or name_key(candidate.name)
    found: list[Likely] = []
    for other in others:
        if other.pk is not None and other.pk == candidate.pk:
            continue
        why = [*_of_name(key, other.key or name_key(other.name)), *_of_the_rest(candidate, other)]
        strength = _together(why)
        if strength >= WARN_AT:
            found.append(Likely(other.pk, tuple(why), strength))
    return sorted(found, key=lambda likely: -likely.strength)


def narrowed(candidate: Described, letters: int = 3) -> Narrowed:
    """What to ask the database for where there are too many partners to compare with all.

    A slip within the first `letters` of the name is then found only by phone, address or web.
    """
    key = candidate.key or name_key(candidate.name)
    core = core_of(key)[:letters]
    starts = {key[:letters], core, f"the {core}"} if core else set()
    street = candidate.address.partition("|")[0]
    return Narrowed(tuple(sorted(starts)), candidate.phone, f"{street}|" if street else "", candidate.web)


def _of_the_rest(one: Described, other: Described) -> list[Why]:
    why: list[Why] = []
    if one.phone and one.phone == other.phone:
        why.append("same_phone")
    if one.address and other.address and (place := same_place(one.address, other.address)):
        why.append(place)
    if one.web and one.web == other.web:
        why.append("same_web")
    return why


def _of_name(key: str, other: str) -> list[Why]:
    if not key or not other:
        return []
    if key == other:
        return ["same_name"]
    core, other_core = _core(key), _core(other)
    if core.tight == other_core.tight or core.words == other_core.words:
        return ["same_name_otherwise_written"]
    if key_likeness(core.text, other_core.text) >= _ALIKE and _words_alike(core, other_core):
        return ["alike_name"]
    fewer, more = sorted((core.words, other_core.words), key=len)
    return ["name_within_name"] if fewer < more and fewer - _COMMON else []


@dataclass(frozen=True, slots=True)
class _Core:
    text: str
    tight: str
    words: frozenset[str]


@lru_cache(maxsize=20_000)
def _core(key: str) -> _Core:
    text = core_of(key)
    return _Core(text, text.replace(" ", ""), frozenset(text.split()))


def _words_alike(one: _Core, other: _Core) -> bool:
    """Whether the words that differ are spellings of each other, as those of `North Deli` and `South Deli` are not."""
    mine, theirs = sorted(one.words - other.words), sorted(other.words - one.words)
    if any(word.isdigit() for word in (*mine, *theirs)):
        return False
    return all(_has_alike(word, theirs, other.tight) for word in mine) and all(
        _has_alike(word, mine, one.tight) for word in theirs
    )


def _has_alike(word: str, words: Sequence[str], tight: str) -> bool:
    return word in tight or any(key_likeness(word, other) >= 0.87 for other in words)


def _together(why: Iterable[Why]) -> float:
    # Reasons speak independently: what stays unlikely is unlikely for each of them.
    doubt = 1.0
    for reason in why:
        doubt *= 1 - _WEIGHTS[reason]
    return 1 - doubt
