"""What the pages of "Your words" show: sheets, their parts as they are said now, one part with all about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from django.http import Http404
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from outreach.reading import Reading, read
from outreach.registry import entry
from outreach.trying import Blank, Example, blanks_of, cautions, example, refusals
from outreach.worded import WORDED, Worded, worded
from outreach.wording.own_words import LEFT_OUT, Part, house_words
from partners.letters.models import Wording
from partners.letters.own_words import latest, versions
from partners.program.desk import Desk
from partners.program.models import Language

LEFT = _("left out")
VERSIONS_SHOWN = 20


@dataclass(frozen=True)
class SheetLine:
    """One sheet of the list; for each language its name and how many parts are worded by the teacher."""

    sheet: Worded
    languages: tuple[tuple[str, str | Promise, int], ...]


@dataclass(frozen=True)
class PartLine:
    """One part as it is said now, with its blanks; `own` is the version that says so, None for the house."""

    part: Part
    words: str | Promise
    own: Wording | None = None


def sheet_or_404(name: str, language: str) -> Worded:
    if language not in Language.values:
        raise Http404
    try:
        return worded(name)
    except KeyError:
        raise Http404 from None


def part_or_404(sheet: Worded, path: str) -> Part:
    try:
        return sheet.part(path)
    except KeyError:
        raise Http404 from None


def sheet_lines(desk: Desk) -> list[SheetLine]:
    own = latest(desk.wordings).exclude(words="").values_list("document", "language", "part")
    kept = {(document, language, part) for document, language, part in own}
    return [
        SheetLine(
            sheet,
            tuple(
                (code, name, sum((sheet.name, code, part.path) in kept for part in sheet.parts))
                for code, name in Language.choices
            ),
        )
        for sheet in WORDED
    ]


def part_lines(desk: Desk, sheet: Worded, language: str) -> list[PartLine]:
    rows = latest(desk.wordings.filter(document=sheet.name, language=language)).exclude(words="")
    own = {row.part: row for row in rows}
    return [part_line(sheet, language, part, own.get(part.path)) for part in sheet.parts]


def part_line(sheet: Worded, language: str, part: Part, own: Wording | None) -> PartLine:
    if own is None or not own.words:
        return PartLine(part, house_words(sheet.tables[language], part.path))
    return PartLine(part, LEFT if own.words == LEFT_OUT else own.words, own)


def always(sheet: Worded, language: str) -> list[str]:
    return [house_words(sheet.tables[language], path) for path in sheet.always]


def part_page(desk: Desk, sheet: Worded, language: str, part: Part) -> dict[str, Any]:
    """Everything about one part but what is typed."""
    rows = list(versions(desk, sheet.name, language, part.path).select_related("created_by")[:VERSIONS_SHOWN])
    now = rows[0] if rows else None
    return {
        "sheet": sheet,
        "part": part,
        "spoken": language,
        "spoken_name": dict(Language.choices)[language],
        "now": now,
        "own": now if now and now.words else None,
        "house": house_words(sheet.tables[language], part.path),
        "always": always(sheet, language),
        "blanks": [Blank(f"[{name}]", about) for name, about in blanks_of(sheet, language, part).items()],
        "versions": rows,
    }


def tried(desk: Desk, sheet: Worded, language: str, part: Part, words: str) -> Mapping[str, Any]:
    """What is wrong with words that are being typed, what is worth a thought, an example, and how hard it reads."""
    words = " ".join(words.split())
    wrong = refusals(sheet, language, part, words) if words else []
    shown = Example("") if wrong else example(desk, sheet, language, part, words)
    reading = how_hard(sheet, language, shown.text) if len(shown.text.split()) > 3 else None
    return {
        "wrong": wrong,
        "cautions": [] if wrong else cautions(sheet, language, part, words),
        "example": shown,
        "readings": [reading] if reading else [],
        "spoken": language,
    }


def how_hard(sheet: Worded, language: str, text: str) -> Reading:
    """Told of every sheet; found too hard only where families are to read it."""
    found = read(language, text)
    home = sheet.slug and hasattr(entry(sheet.slug).module, "READ")
    return found if home else replace(found, easy=True)
