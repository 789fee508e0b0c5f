"""Which things need a look before children use them, as far as their names tell: a proposal, for somebody to judge.

Common practice of art rooms. The patterns mean the same to a browser, which proposes while somebody types.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

TICKS = ("label_readable", "fit_for_youngest", "is_clean")
FOOD = "food"

_KEPT_FOOD = (
    "egg|milk|juice|cream|food|take-?out|pizza|cereal|berry|meat|pudding|yogh?o?urt|margarine|butter|jam|jelly|pickle|"
    "honey|soup|tuna|coffee|soda|water|spice|salsa|sauce|deli|lunch"
)
_CONTAINER = "cartons?|box(?:es)?|cups?|tubs?|jars?|cans?|tins?|bottles?|trays?|containers?|lids?|tops?"

PATTERNS: dict[str, str] = {
    "paint": (
        r"\b(?:paints?|tempera|acrylics?|watercolou?rs?|gouache|dyes?|inks?|varnish)\b"
        r"(?!\s*-?(?:brush|stick|stir|chip|roller|card|sample|tray|cloth))"
    ),
    "glue": r"\b(?:glues?|adhesives?|epoxy|rubber cement)\b(?!\s*-?guns?)",
    "clay": r"\b(?:clay|glazes?|plaster)\b(?!\s*-?(?:pot|planter|tool|saucer|tile))",
    "food": (
        rf"\b(?:{_KEPT_FOOD})[ -](?:{_CONTAINER})\b|\byogh?o?urts?\b|\b(?:cartons?|jars?|tubs?|tin cans?)\b(?! of)|"
        r"\bbottle (?:caps?|tops?)\b"
    ),
}

_COMPILED = {risk: re.compile(words, re.IGNORECASE) for risk, words in PATTERNS.items()}


def risk_named(what: str) -> str:
    """The kind of risk that the thing's name tells, "" where it tells none.

    >>> risk_named("egg cartons"), risk_named("Yogurt cups, rinsed"), risk_named("baby food jars")
    ('food', 'food', 'food')
    >>> risk_named("jars of tempera"), risk_named("paint brushes"), risk_named("clay pots"), risk_named("frames")
    ('paint', '', '', '')
    """
    return next((risk for risk, pattern in _COMPILED.items() if pattern.search(what)), "")


def ticks_for(risks: Iterable[str]) -> tuple[str, ...]:
    """What has to be looked at before children use such things. What held food bears no label that matters.

    >>> ticks_for(["food", ""]), ticks_for(["food", "paint"]) == TICKS, ticks_for([""])
    (('fit_for_youngest', 'is_clean'), True, ())
    """
    kinds = {risk for risk in risks if risk}
    if kinds - {FOOD}:
        return TICKS
    return TICKS[1:] if kinds else ()
