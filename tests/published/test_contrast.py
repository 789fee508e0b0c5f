"""Colours of the charts by the contrast formula of WCAG 2.2, and the formula by its well-known borders."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

CSS = Path(__file__).parent.parent.parent / "partners" / "static" / "partners"
# Marks of a chart need 3:1 to what is beside them (success criterion 1.4.11), words 4.5:1 (1.4.3).
MARKS = [("bar", "paper"), ("bar-edge", "paper"), ("bar-floor", "paper"), ("bar-edge", "accent-wash")]
WORDS = [
    ("ink", "paper"),
    ("ink-soft", "paper"),
    ("accent", "paper"),
    ("accent", "accent-wash"),
    ("on-accent", "accent"),
]


def luminance(color: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def colors(scheme: str) -> dict[str, str]:
    """The variables of the style sheets, as a browser of that scheme resolves them."""
    text = (CSS / "tokens.css").read_text(encoding="utf-8")
    light, dark = text.partition("prefers-color-scheme: dark")[::2]
    year = (CSS / "year.css").read_text(encoding="utf-8")
    text = f"{light.partition('@media')[0]}{dark.partition('@media')[0] if scheme == 'dark' else ''}"
    found = dict(re.findall(r"--([\w-]+):\s*([^;]+);", f"{text}{year.partition('@media (forced-colors')[0]}"))
    while refers := {name: value for name, value in found.items() if value.startswith("var(")}:
        found |= {name: found[value[6:-1]] for name, value in refers.items()}
    return found


@pytest.mark.parametrize(
    ("color", "ratio"),
    # Common check values for WCAG contrast on white: the lightest greys that pass, and the first that fails.
    [("#767676", 4.5422), ("#777777", 4.4781), ("#949494", 3.0335), ("#000000", 21), ("#ffffff", 1)],
)
def test_the_formula(color, ratio):
    assert contrast(color, "#ffffff") == pytest.approx(ratio, abs=0.00005)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_charts_are_seen_and_their_words_read(scheme):
    known = colors(scheme)
    assert known["paper"] == {"light": "#fcfaf4", "dark": "#1e1a1d"}[scheme]
    marks = {pair: contrast(known[pair[0]], known[pair[1]]) for pair in MARKS}
    words = {pair: contrast(known[pair[0]], known[pair[1]]) for pair in WORDS}
    assert {pair: ratio for pair, ratio in marks.items() if ratio < 3} == {}
    assert {pair: ratio for pair, ratio in words.items() if ratio < 4.5} == {}
