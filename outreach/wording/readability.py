"""How hard an English text is to read, by the grade formula of Flesch and Kincaid.

Kincaid, Fishburne, Rogers and Chissom, "Derivation of New Readability Formulas" (1975). The formula is made for
English; other languages have their own, and get no grade here.
"""

from __future__ import annotations

import re

from outreach.wording.syllables import syllables

# Never the end of a sentence, whatever comes behind.
_TITLE_WORDS = "mr mrs ms mx dr prof rev fr sr sra srta hon gov sen rep capt lt sgt mt ft vs e.g i.e cf"
_TITLES = frozenset(_TITLE_WORDS.split())
# The end of a sentence only before a capital letter.
_SHORT_WORDS = """
st ave rd blvd apt ste dept approx etc inc co corp ltd jr no nos vol fig ext lb lbs oz in a.m p.m u.s
jan feb mar apr jun jul aug sep sept oct nov dec mon tue tues wed thu thur thurs fri sat sun
"""
_SHORT = frozenset(_SHORT_WORDS.split())
_MARKS, _CLOSING = ".!?…", "\"'”’)]"
_BULLET = re.compile(r"\s*(?:[-•*▪◦]|\d{1,2}[.)])\s+")
_OUTER = re.compile(r"^[^\w$&%]+|[^\w$&%]+$")


def flesch_kincaid(words: int, sentences: int, syllables: int) -> float:
    """The US school grade: 0.39 words/sentences + 11.8 syllables/words - 15.59. May be below zero.

    Raises ValueError where there are no words or sentences: an empty text has no grade.
    """
    if words <= 0 or sentences <= 0:
        raise ValueError("a text without words has no grade")
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59


def grade(text: str) -> float | None:
    """The grade of a text as written; None where it has no words.

    Headings, greetings, signatures and list entries, which end without a full stop, are left out where there are whole
    sentences beside them.
    """
    said = sentences(text)
    words = [word for sentence in said for word in words_of(sentence)]
    if not words:
        return None
    return flesch_kincaid(len(words), len(said), sum(map(syllables, words)))


def long_sentences(text: str, limit: int = 15) -> list[str]:
    """The sentences of `limit` words or more; letters home keep below."""
    return [sentence for sentence in sentences(text) if len(words_of(sentence)) >= limit]


def sentences(text: str) -> list[str]:
    """The sentences that `grade` counts, each on one line."""
    blocks = [piece for block in _blocks(text) for piece in _cut(block) if words_of(piece)]
    whole = [piece for piece in blocks if ends_sentence(piece.split()[-1], "")]
    return whole or blocks


def words_of(sentence: str) -> list[str]:
    """The words of a sentence; a contraction, a hyphenated word, a number or `&` is one word."""
    stripped = (_OUTER.sub("", token) for token in re.split(r"[\s—–]+", sentence))
    return [word for word in stripped if word == "&" or any(sign.isalnum() for sign in word)]


def _blocks(text: str) -> list[str]:
    """Paragraphs and list entries; a line break within a paragraph is only a space."""
    blocks: list[list[str]] = [[]]
    for line in text.splitlines():
        bullet = _BULLET.match(line)
        if bullet or not line.strip():
            blocks.append([])
        blocks[-1].append(line[bullet.end() :] if bullet else line)
    return [" ".join(" ".join(block).split()) for block in blocks]


def _cut(block: str) -> list[str]:
    pieces: list[list[str]] = [[]]
    tokens = block.split()
    for token, following in zip(tokens, [*tokens[1:], ""], strict=False):
        pieces[-1].append(token)
        if ends_sentence(token, following):
            pieces.append([])
    return [" ".join(piece) for piece in pieces if piece]


def ends_sentence(token: str, following: str) -> bool:
    """Whether a sentence ends behind `token`; `following` is "" at the end of a paragraph."""
    bare = token.rstrip(_CLOSING)
    before = bare.rstrip(_MARKS)
    mark = bare[len(before) :]
    if not mark:
        return False
    if not following or mark != ".":
        return not following or not following[0].islower()
    word = _OUTER.sub("", before).lower()
    opens = _OUTER.sub("", following)[:1]
    if word in _TITLES or (len(word) == 1 and word.isalpha() and word != "i"):
        return False
    return opens.isupper() if word in _SHORT else not opens.islower()
