"""What somebody has read from us in the last fifteen months, for who writes to them again."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from outreach.wording.repeats import Earlier
from partners.letters.actions import ABOUT
from partners.letters.models import LetterState
from partners.letters.sheet_text import sheet_text
from partners.program.desk import Desk

FIFTEEN_MONTHS = timedelta(days=456)
LETTERS_READ = 12
SHEETS_READ = 3
RECEIVERS = ("partner", "helper")


@dataclass(frozen=True)
class Gone:
    """A letter that went out: its words where they were kept, and the numbers of what it was about."""

    pk: int
    day: date
    document: str
    text: str
    about: tuple[int | None, ...]


def read_by(desk: Desk, receiver: str, pks: Collection[int]) -> dict[int, list[Gone]]:
    """The latest letters to each of these receivers (a column of the register) by one query."""
    found: dict[int, list[Gone]] = defaultdict(list)
    since = desk.day - FIFTEEN_MONTHS
    rows = desk.letters.filter(**{f"{receiver}__in": pks, "day__gte": since}).exclude(state=LetterState.DRAFT)
    columns = (f"{receiver}_id", "pk", "day", "document", "words", *(f"{name}_id" for name in ABOUT))
    for to, pk, day, document, words, *about in rows.order_by(f"{receiver}_id", "-day", "-pk").values_list(*columns):
        if len(found[to]) < LETTERS_READ:
            found[to].append(Gone(pk, day, document, _body(words), tuple(about)))
    return dict(found)


def said_before(
    desk: Desk,
    about: Mapping[str, Any],
    slug: str,
    column: str,
    gone: Mapping[int, list[Gone]] | None = None,
) -> list[Earlier]:
    """What the letters said that went to the one whom a sheet `about` these rows is for; a run of many hands in `gone`.

    A letter about the same row (`column` of the register) is the same letter again, and not read; of sheets that are
    about the receiver alone, today's. What was kept without its words is read from the sheet, of the latest ones.
    """
    receiver = next((name for name in RECEIVERS if about.get(name)), None)
    if receiver is None:
        return []
    to = about[receiver].pk
    letters = (read_by(desk, receiver, [to]) if gone is None else gone).get(to, [])
    others = [one for one in letters if not _is_same(one, desk.day, about, slug, column)]
    told = [Earlier(one.day, one.text) for one in others if one.text]
    return told if gone is not None else told + _on_sheets(desk, [one.pk for one in others if not one.text])


def _is_same(one: Gone, day: date, about: Mapping[str, Any], slug: str, column: str) -> bool:
    if column in RECEIVERS:
        return one.document == slug and one.day == day
    return bool(one.about[ABOUT.index(column)] == about[column].pk)


def _on_sheets(desk: Desk, pks: Collection[int]) -> list[Earlier]:
    if not pks:
        return []
    rows = desk.letters.filter(pk__in=list(pks)[:SHEETS_READ]).values_list("day", "sheet__pdf")
    return [Earlier(day, text) for day, pdf in rows if (text := sheet_text(bytes(pdf)))]


def _body(words: Any) -> str:
    return "\n\n".join(map(str, words.get("paragraphs", []))) if isinstance(words, dict) else ""
