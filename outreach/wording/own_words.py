"""The teacher's own words for parts of a sheet, and how a sheet says a part: its own words, else those of the house."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import Any

from django.utils.functional import Promise

from outreach.wording.blanks import filled

LEFT_OUT = "-"
"""Own words that say nothing: the part is left out. Only parts that may be are."""


@dataclass(frozen=True)
class Part:
    """Words of a sheet that a teacher may say differently.

    `path` is where the house's words stand in the table of a language ("asking", "given.goods"); `blanks` are filled
    in here alone, beside those of the whole sheet. What `may_go` can be left out altogether.
    """

    path: str
    label: str | Promise
    blanks: tuple[str, ...] = ()
    may_go: bool = False


class OwnWords:
    """Own words of one program by (sheet, language, part). No dataclass: the page kit reads facts, and this is none."""

    def __init__(self, texts: Mapping[tuple[str, str, str], str] | None = None) -> None:
        self.texts = dict(texts or {})

    def of(self, sheet: str, language: str, path: str) -> str:
        """ "" where the house's words stand."""
        return self.texts.get((sheet, language, path), "")

    def said(self, sheet: str, language: str) -> str:
        """All own words of a sheet in one language, for who looks through them."""
        return "\n".join(
            text for (one, spoken, _path), text in self.texts.items() if (one, spoken) == (sheet, language)
        )


HOUSE = OwnWords()


@dataclass(frozen=True)
class Heard:
    """A part as it was said; `empty` are the blanks whose sentences were left out of the teacher's own words."""

    sheet: str
    language: str
    path: str
    text: str
    empty: tuple[str, ...] = ()


_listening: ContextVar[list[Heard] | None] = ContextVar("parts_heard", default=None)


@contextmanager
def heard() -> Iterator[list[Heard]]:
    """Every part that a sheet says while it is open: for what is empty in it, and for an example."""
    kept: list[Heard] = []
    token = _listening.set(kept)
    try:
        yield kept
    finally:
        _listening.reset(token)


def house_words(table: Any, path: str) -> str:
    """What the house says there; KeyError or AttributeError where there is no such part."""
    name, _, key = path.partition(".")
    words = getattr(table, name)
    if not key:
        return str(words)
    return str(words[key] if isinstance(words, Mapping) else getattr(words, key))


@dataclass(frozen=True)
class Voice:
    """One sheet in one language. `values` fill its blanks; where nothing is left of own words, the house speaks."""

    sheet: str
    language: str
    table: Any
    own: OwnWords = HOUSE
    values: Mapping[str, str] = field(default_factory=dict)

    def __call__(self, path: str, instead: str = "", **more: str) -> str:
        """The part with its blanks filled in: `say("asking", what_came="pots")` fills [what came].

        `instead` are the house's words where those of the table do not fit this time.
        """
        values = {**self.values, **{name.replace("_", " "): value for name, value in more.items()}}
        own = self.own.of(self.sheet, self.language, path)
        if own == LEFT_OUT:
            return ""
        said = filled(own, values)
        text = said.text or filled(instead or house_words(self.table, path), values).text
        kept = _listening.get()
        if kept is not None:
            kept.append(Heard(self.sheet, self.language, path, text, said.empty))
        return text
