"""The style sheets against the pages: nothing styled that no page has, no colour or size beside the tokens."""

from __future__ import annotations

import re
from pathlib import Path

from partners.ground.look import STYLES

ROOT = Path(__file__).parents[2]
SHEETS = ROOT / "partners" / "static" / "partners"
# Written by a template that puts the end to it: "is-{{ state }}", "slip-{{ number }}".
BUILT = re.compile(r"([\w-]+-)\{\{")
# Hooks for tests and for script, and names that only say what a part is.
UNSTYLED = {
    "anew", "bring", "found", "gaps", "gift-line", "help", "measures", "outing", "paste",
    "reading", "stacked", "story", "suggest", "todo", "turn-who", "typed", "weeks", "went",
}  # fmt: skip


def sheets() -> dict[str, str]:
    return {
        one.name: re.sub(r"/\*.*?\*/", "", one.read_text(encoding="utf-8"), flags=re.DOTALL)
        for one in sorted(SHEETS.glob("*.css"))
    }


def styled() -> set[str]:
    selectors = " ".join(re.findall(r"([^{};]+)\{", " ".join(sheets().values())))
    return set(re.findall(r"\.([a-zA-Z][\w-]*)", re.sub(r'"[^"]*"', "", selectors)))


def pages() -> str:
    return "\n".join(one.read_text(encoding="utf-8") for one in sorted((ROOT / "templates").rglob("*.html")))


def test_every_styled_class_is_on_some_page() -> None:
    others = [*SHEETS.glob("*.js"), *(one for app in ("partners", "outreach") for one in (ROOT / app).rglob("*.py"))]
    text = pages() + "".join(one.read_text(encoding="utf-8") for one in others)
    named, built = set(re.findall(r"[\w-]+", text)), tuple(BUILT.findall(text))
    assert {one for one in styled() - named if not one.startswith(built)} == set()


def test_every_class_on_a_page_is_styled_or_a_known_hook() -> None:
    names: set[str] = set()
    for value in re.findall(r'\bclass="((?:\{%.*?%\}|\{\{.*?\}\}|[^"])*)"', pages()):
        names |= set(re.findall(r"[\w-]+", re.sub(r"\{%.*?%\}|[\w-]*\{\{.*?\}\}", " ", value)))
    assert names - styled() - UNSTYLED == set()
    assert names >= UNSTYLED


def test_sizes_and_colours_are_tokens() -> None:
    beside = []
    for name, text in sheets().items():
        text = re.sub(r"@media print \{.*?\n\}\n", "", text, flags=re.DOTALL)
        for prop, value in re.findall(r"[{;\s]([a-z-]+): ([^;{}]+);", text):
            sized = prop in ("font", "font-size") and re.search(r"\d(rem|px)", value) and "13px" not in value
            spaced = re.match(r"(margin|padding|gap|row-gap|column-gap)", prop) and re.search(r"\d(rem|px)", value)
            coloured = re.search(r"#[0-9a-f]{3,6}\b|rgb|hsl", value)
            # A hair out of sight and a phone's own edge are no distances; the words of a picture scale with it.
            if name != "tokens.css" and (sized or coloured or (spaced and "1px" not in value and "env(" not in value)):
                beside.append(f"{name}: {prop}: {value}")
    assert beside == []


def test_every_style_sheet_is_there() -> None:
    assert all((SHEETS.parent / name).is_file() for name in STYLES)
