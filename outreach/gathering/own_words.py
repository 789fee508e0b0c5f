"""The teacher's own words as they stand now, and how facts come to speak with them."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from outreach.wording.own_words import HOUSE, OwnWords
from partners.letters.own_words import latest
from partners.program.desk import Desk

F = TypeVar("F")


def own_words(desk: Desk) -> OwnWords:
    """Those of the whole program by one query: a run of many sheets asks once and hands them on."""
    rows = latest(desk.wordings).exclude(words="").values_list("document", "language", "part", "words")
    texts = {(document, language, part): words for document, language, part, words in rows}
    return OwnWords(texts) if texts else HOUSE


def with_own(facts: F, own: OwnWords) -> F:
    """The same facts, worded so: every `wording` in them, also that of facts within facts."""
    if own is HOUSE:
        return facts
    changed: dict[str, Any] = {}
    for one in fields(facts):  # type: ignore[arg-type]
        value = getattr(facts, one.name)
        if one.name == "wording":
            changed[one.name] = own
        elif is_dataclass(value) and not isinstance(value, type):
            told = with_own(value, own)
            if told is not value:
                changed[one.name] = told
    return replace(facts, **changed) if changed else facts  # type: ignore[type-var]
