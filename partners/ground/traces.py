"""Where a person's name, phone or e-mail stands in a text, and the text without them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any

from partners.ground.names import fold

REMOVED = "(removed)"
# A shorter part of a name ("Al", "Jo") stands in too many words that mean nobody.
SHORTEST_PART = 3
MOST_BETWEEN = 3
FEWEST_DIGITS = 7

_WORD = re.compile(re.escape(REMOVED) + r"|[^\W_]+(?:[\u0300-\u036f]+[^\W_]*)*(?:['’‘ʼʻ`´ʹ][^\W_]+)*")
_OWNED = re.compile(r"['’‘ʼʻ`´ʹ][sS]$")
_DIGITS = re.compile(r"\d")
_TWICE = re.compile(rf"{re.escape(REMOVED)}(?:[\s-]{{0,3}}{re.escape(REMOVED)})+")
_BETWEEN_DIGITS = r"[\s().\-/·]{0,3}"


@dataclass(frozen=True)
class Found:
    """A stretch of a text; `certain` where it is the whole name, a phone or an e-mail, and not a part of the name."""

    start: int
    end: int
    certain: bool


@dataclass(frozen=True)
class Traces:
    """What a person is known by. Case, accents and ways of writing do not matter."""

    names: tuple[str, ...] = ()
    phones: tuple[str, ...] = ()
    emails: tuple[str, ...] = ()

    @cached_property
    def _whole(self) -> tuple[tuple[str, ...], ...]:
        ways = set()
        for name in self.names:
            written = tuple(word for _start, _end, word in _words(name))
            for way in (written, written if REMOVED in name else tuple(fold(name).split())):
                ways |= {way, (*way[-1:], *way[:-1])} if set(way) - {REMOVED} else set()
        return tuple(sorted(ways, key=len, reverse=True))

    @cached_property
    def _parts(self) -> frozenset[str]:
        words = {word for way in self._whole if len(way) > 1 for word in way} - {REMOVED}
        return frozenset(word for word in words if len(word) >= SHORTEST_PART)

    @cached_property
    def _patterns(self) -> tuple[re.Pattern[str], ...]:
        numbers = {digits for phone in self.phones if len(digits := _plain(phone)) >= FEWEST_DIGITS}
        phones = [rf"(?:\+?1{_BETWEEN_DIGITS})?\(?" + _BETWEEN_DIGITS.join(digits) for digits in sorted(numbers)]
        emails = [re.escape(email) for email in sorted(filter(None, self.emails))]
        return (
            *(re.compile(rf"(?<!\d){phone}(?!\d)") for phone in phones),
            *(re.compile(rf"(?<![\w.+-]){email}(?![\w-])", re.IGNORECASE) for email in emails),
        )

    def __bool__(self) -> bool:
        return bool(self._whole or self._patterns)

    @cached_property
    def _hints(self) -> frozenset[str]:
        return self._parts | {max(way, key=len) for way in self._whole} | {email.lower() for email in self.emails}

    def _may_stand_in(self, text: str) -> bool:
        """A quick look that spares most texts the slow one."""
        if not text.isascii():
            return True
        plain = text.lower().replace("'", "").replace("`", "")
        digits = "".join(_DIGITS.findall(text))
        return any(hint in plain for hint in self._hints) or any(_plain(phone) in digits for phone in self.phones)

    def find(self, text: str) -> list[Found]:
        """Every stretch, in order and without overlaps; what is certain goes before what is not."""
        if not self._may_stand_in(text):
            return []
        found = [Found(*hit.span(), True) for pattern in self._patterns for hit in pattern.finditer(text)]
        found += self._named(text)
        kept: list[Found] = []
        for one in sorted(found, key=lambda one: (not one.certain, one.start, -one.end)):
            if all(one.end <= other.start or one.start >= other.end for other in kept):
                kept.append(one)
        return sorted(kept, key=lambda one: one.start)

    def _named(self, text: str) -> Iterator[Found]:
        words = list(_words(text))
        for place, (start, end, word) in enumerate(words):
            if word in self._parts:
                yield Found(start, end, False)
            for way in self._whole:
                run = words[place : place + len(way)]
                close = all(after[0] - before[1] <= MOST_BETWEEN for before, after in pairwise(run))
                if close and tuple(one[2] for one in run) == way:
                    yield Found(start, run[-1][1], True)

    def certain_in(self, text: str) -> bool:
        return any(one.certain for one in self.find(text))

    def without(self, text: str, *, parts: bool = False) -> str:
        """The text without what is certain, and with `parts` also without single parts of the name."""
        kept = text
        for one in reversed(self.find(text)):
            if one.certain or parts:
                kept = kept[: one.start] + REMOVED + kept[one.end :]
        return _TWICE.sub(REMOVED, kept) if parts else kept

    def without_in(self, value: Any, *, parts: bool = False) -> Any:
        """The same of every text inside lists and dictionaries."""
        if isinstance(value, str):
            return self.without(value, parts=parts)
        if isinstance(value, list):
            return [self.without_in(inner, parts=parts) for inner in value]
        if isinstance(value, dict):
            return {key: self.without_in(inner, parts=parts) for key, inner in value.items()}
        return value


def traces_of(names: Iterable[str], phones: Iterable[str] = (), emails: Iterable[str] = ()) -> Traces:
    kept = [tuple(filter(None, (one.strip() for one in many))) for many in (names, phones, emails)]
    return Traces(*kept)


def _words(text: str) -> Iterator[tuple[int, int, str]]:
    """Each word with its place, folded; of "Dana's" only "dana". What stands for a name that went is one, and stays."""
    for hit in _WORD.finditer(text):
        if hit.group() == REMOVED:
            yield *hit.span(), REMOVED
            continue
        owned = _OWNED.search(hit.group())
        end = hit.start() + owned.start() if owned else hit.end()
        yield hit.start(), end, fold(unicodedata.normalize("NFC", text[hit.start() : end])).replace(" ", "")


def _plain(phone: str) -> str:
    """The digits of a number without its extension and without the country code 1."""
    digits = "".join(_DIGITS.findall(phone.partition(";")[0]))
    return digits[1:] if len(digits) == 11 and digits.startswith("1") else digits
