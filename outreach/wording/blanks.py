"""Words with blanks in square brackets, as a teacher writes them: "Thank you for [what came], [person]."

Nothing is run: a blank is looked up by its name and replaced by its text once; braces, percent signs and markup are
text. A sentence with a blank that is empty this time is left out whole, so that nothing prints as a hole.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache

from outreach.wording.readability import ends_sentence

NAMES = frozenset({"giver", "person", "teacher", "school", "helper", "colleague", "title", "subject"})
"""Printed as their bearers write them, also where a sentence begins with one."""
SENTENCES = frozenset({"what it became"})
"""Blanks that are a sentence of their own."""
LONGEST_NAME = 40
_BLANK = re.compile(r"\[([^\[\]]*)\]")
_TOKEN = re.compile(r"(?:\[[^\[\]]*\]|[^\s\[]|\[)+")
_END_SIGNS = (".", "!", "?", "…")


@dataclass(frozen=True)
class Filled:
    """What is printed, and the blanks that were empty: their sentences are not in it."""

    text: str
    empty: tuple[str, ...] = ()


@dataclass(frozen=True)
class Mistake:
    """A bracket that stands for nothing; `meant` is the blank with the nearest name, "" where none is near.

    Without a closing bracket, `found` is the text behind the opening one.
    """

    found: str
    meant: str = ""
    is_open: bool = False


@dataclass(frozen=True)
class _Piece:
    text: str = ""
    blank: str = ""


_Sentence = tuple[_Piece, ...]


def plain(name: str) -> str:
    """
    >>> plain("  What   Came ")
    'what came'
    """
    return " ".join(name.split()).casefold()


def blanks_in(text: str) -> tuple[str, ...]:
    """The blanks that the text uses, each once, in their order."""
    return tuple(dict.fromkeys(plain(name) for name in _BLANK.findall(text)))


def mistakes(text: str, known: Collection[str]) -> list[Mistake]:
    """Brackets that are none of the `known` blanks, and brackets without their other half."""
    wrong = [name for name in blanks_in(text) if name not in known]
    found = [Mistake(name[:LONGEST_NAME], _meant(name, known)) for name in wrong]
    left = _BLANK.sub("", text)
    at = min((place for place in (left.find("["), left.find("]")) if place >= 0), default=-1)
    return found if at < 0 else [*found, Mistake(left[at : at + LONGEST_NAME], is_open=True)]


def _meant(name: str, known: Collection[str]) -> str:
    return "".join(get_close_matches(name[:LONGEST_NAME], sorted(known), 1))


def filled(text: str, values: Mapping[str, str]) -> Filled:
    """The text with its blanks filled in once. A blank that is not among the values counts as empty.

    >>> filled("Dear [person], thank you. We made [made].", {"person": "Ana [x]", "made": ""})
    Filled(text='Dear Ana [x], thank you.', empty=('made',))
    """
    said: list[str] = []
    empty: list[str] = []
    for sentence in _sentences(text):
        missing = [piece.blank for piece in sentence if piece.blank and not values.get(piece.blank)]
        empty += missing
        if not missing:
            said.append(_said(sentence, values))
    return Filled(" ".join(said), tuple(dict.fromkeys(empty)))


def _said(sentence: _Sentence, values: Mapping[str, str]) -> str:
    parts: list[str] = []
    for piece in sentence:
        part = values[piece.blank] if piece.blank else piece.text
        if piece.blank and not parts and piece.blank not in NAMES:
            part = part[0].upper() + part[1:]
        # "Inc." and "Sons." end with the sentence's own full stop.
        if parts and part.startswith(".") and parts[-1].endswith(_END_SIGNS):
            part = part[1:]
        parts.append(part)
    return "".join(parts)


@lru_cache(maxsize=2048)
def _sentences(text: str) -> tuple[_Sentence, ...]:
    """The text in sentences, each in pieces; white space is one space."""
    pieces: list[list[str]] = [[]]
    tokens = _TOKEN.findall(text)
    for token, following in zip(tokens, [*tokens[1:], ""], strict=False):
        pieces[-1].append(token)
        if _ends(token, following):
            pieces.append([])
    return tuple(_pieces(" ".join(one)) for one in pieces if one)


def _ends(token: str, following: str) -> bool:
    """Whether a sentence ends here; one that begins with a blank begins with a capital."""
    begins = "X" if following.startswith("[") else following
    blank = _BLANK.fullmatch(token)
    if blank and plain(blank[1]) in SENTENCES:
        return not begins[:1].islower()
    return ends_sentence(_BLANK.sub("blank", token), begins)


def _pieces(sentence: str) -> _Sentence:
    made: list[_Piece] = []
    for place, part in enumerate(_BLANK.split(sentence)):
        if place % 2:
            made.append(_Piece(blank=plain(part)))
        elif part:
            made.append(_Piece(text=part))
    return tuple(made)
