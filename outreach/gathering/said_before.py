"""What somebody has read from us in the last fifteen months, for who writes to them again."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import timedelta
from typing import Any

from outreach.wording.repeats import Earlier
from partners.letters.models import LetterState
from partners.letters.sheet_text import sheet_text
from partners.program.desk import Desk

FIFTEEN_MONTHS = timedelta(days=456)
LETTERS_READ = 12
SHEETS_READ = 3
RECEIVERS = ("partner", "helper")


def said_before(desk: Desk, about: Mapping[str, Any], slug: str, column: str) -> list[Earlier]:
    """The words of the latest letters that went out to the one whom a sheet `about` these rows is for.

    A letter about the same row (`column` of the register) is the same letter again, and not read; of sheets that are
    about the receiver alone, today's.
    """
    to = next((name for name in RECEIVERS if about.get(name)), None)
    if to is None:
        return []
    letters = _gone(desk).filter(**{to: about[to]})
    same = {"document": slug, "day": desk.day} if column in RECEIVERS else {column: about[column]}
    letters = letters.exclude(**same)
    rows = list(letters.order_by("-day", "-pk").values_list("pk", "day", "words")[:LETTERS_READ])
    told = [Earlier(day, _body(words)) for _pk, day, words in rows]
    bare = [pk for (pk, _day, _words), one in zip(rows, told, strict=True) if not one.text][:SHEETS_READ]
    sheets = desk.letters.filter(pk__in=bare).values_list("day", "sheet__pdf") if bare else []
    told += [Earlier(day, sheet_text(bytes(pdf)) or "") for day, pdf in sheets]
    return [one for one in told if one.text]


def said_to_each(desk: Desk, partners: Collection[int]) -> dict[int, list[Earlier]]:
    """As `said_before` for many partners by one query: what was kept in words, for a run of many letters."""
    found: dict[int, list[Earlier]] = defaultdict(list)
    rows = _gone(desk).filter(partner__in=partners).order_by("partner_id", "-day", "-pk")
    for partner, day, words in rows.values_list("partner_id", "day", "words").iterator(chunk_size=2000):
        text = _body(words)
        if text and len(found[partner]) < LETTERS_READ:
            found[partner].append(Earlier(day, text))
    return dict(found)


def _gone(desk: Desk) -> Any:
    return desk.letters.filter(day__gte=desk.day - FIFTEEN_MONTHS).exclude(state=LetterState.DRAFT)


def _body(words: Any) -> str:
    return "\n\n".join(map(str, words.get("paragraphs", []))) if isinstance(words, dict) else ""
