"""Sentences that the same receiver has read before: last year's words again, for who writes the next letter."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from rapidfuzz.distance import Indel

from outreach.wording.readability import sentences, words_of
from partners.ground.names import fold

FEWEST_WORDS = 5
"""Shorter ones ("Thank you again.") are nobody's invention."""
SAME = 0.9
"""Nine in ten letters agree, in order: the same sentence with another day or number. As for whole letters
(`partners.gifts.letter_check`), common practice."""


@dataclass(frozen=True)
class Earlier:
    """What a letter of that day said."""

    day: date
    text: str


@dataclass(frozen=True)
class Repeated:
    sentence: str
    day: date


def repeated(body: Sequence[str], earlier: Iterable[Earlier]) -> list[Repeated]:
    """The sentences of the body that stand, nearly as they are, in an earlier text; each once, with the latest day.

    Neither case, accents nor punctuation make another sentence.
    """
    texts = sorted(
        ((one.day, fold(one.text), _folded(one.text)) for one in earlier), key=lambda text: -text[0].toordinal()
    )
    found = []
    for sentence in dict.fromkeys(sentences("\n\n".join(body))):
        now = fold(sentence)
        if len(words_of(sentence)) < FEWEST_WORDS:
            continue
        day = next((day for day, whole, parts in texts if now in whole or _stands(now, parts)), None)
        if day:
            found.append(Repeated(sentence, day))
    return found


def said_twice(body: Sequence[str]) -> list[str]:
    """Sentences that stand more than once in one letter, as when a blank is used in two of its parts."""
    said = [fold(sentence) for sentence in sentences("\n\n".join(body))]
    return [one for one in dict.fromkeys(sentences("\n\n".join(body))) if said.count(fold(one)) > 1]


def _folded(text: str) -> list[str]:
    return [fold(sentence) for sentence in sentences(text)]


def _stands(now: str, before: Iterable[str]) -> bool:
    return any(Indel.normalized_similarity(now, one, score_cutoff=SAME) >= SAME for one in before)
