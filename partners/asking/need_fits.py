"""Which kind of business has a thing to give, by the words of its name: a first guess for what to ask there.

Common practice of teachers who ask in person; no published source. A hint, never a verdict: any need can be chosen.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from partners.directory.kind_named import business_named

GROWS = r"flower ?pots?|pots?|planters?|seeds?|soil|bulbs?|seedlings?|flowers?|vases?|moss|trellis"
BUILDS = r"brush(?:es)?|wood|lumber|dowels?|paints?|nails?|screws?|sandpaper|tiles?|wire|rope|buckets?|tape|hooks?"
SERVES = r"box(?:es)?|cups?|sleeves|bags?|jars?|cartons?|lids?|trays?|napkins?|corks?|cans?|cardboard|coffee|egg"
THINGS = {
    "garden": GROWS,
    "florist": rf"{GROWS}|ribbons?|wire|twine",
    "hardware": BUILDS,
    "grocer": SERVES,
    "coffee_shop": SERVES,
    "restaurant": SERVES,
    "frame_shop": r"mat|mats|mat-?boards?|frames?|offcuts?|moldings?|foam ?board|foam ?core",
    "printer": r"paper|papers|card|cardstock|card stock|ink|inks|tubes?|envelopes?|posters?|toner",
    "accountant": r"paper|papers|folders?|binders?|envelopes?",
    "retail": r"yarns?|fabrics?|felt|thread|buttons?|ribbons?|beads?|boxes|bags?|hangers?",
}
PATTERNS = {kind: re.compile(rf"\b(?:{words})\b", re.IGNORECASE) for kind, words in THINGS.items()}


def first_fitting(things: Sequence[str], name: str, business_kind: str) -> int | None:
    """Where in `things` stands what to ask a business for: what its name or kind tells of, else what no kind does.

    Where nobody said which kind it is, its name tells that, too, in English or Spanish.

    >>> wanted = ["paper ends", "terracotta pots", "broken tile"]
    >>> first_fitting(wanted, "Riverbend Garden Center", "garden"), first_fitting(wanted, "Granite Hill Tile", "other")
    (1, 2)
    >>> first_fitting(["paper ends"], "Riverbend Garden Center", "garden") is None
    True
    >>> first_fitting(["paper ends", "gesso"], "Riverbend Garden Center", "garden")
    1
    >>> first_fitting(wanted, "Second Street Credit Union", "bank")
    0
    >>> first_fitting(wanted, "Vivero Luna", "garden"), first_fitting(["paper ends", "wood"], "Ferretería Luna", "")
    (1, 1)
    """
    own = PATTERNS.get(business_kind or business_named(name))
    named = set(_words(name))
    by_name = (n for n, what in enumerate(things) if named & set(_words(what)))
    by_kind = (n for n, what in enumerate(things) if own is None or own.search(what))
    by_none = (n for n, what in enumerate(things) if not any(kind.search(what) for kind in PATTERNS.values()))
    return next((n for found in (by_name, by_kind, by_none) for n in found), None)


def _words(text: str) -> list[str]:
    """Without the "s" of several; short words tell nothing."""
    return [word.removesuffix("s") for word in re.findall(r"\w{4,}", text.casefold())]
