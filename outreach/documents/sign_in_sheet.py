"""The sheet that lies at the office during a session: who is expected, when they came and left, room for others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from io import BytesIO
from typing import BinaryIO

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Column,
    Heading,
    Letterhead,
    Look,
    Paragraph,
    Sheet,
    Stack,
    Table,
    bold,
    cells,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.helping import SIGN_IN, job_words
from outreach.wording.hours import when_words

SLUG = "sign-in-sheet"
TITLE = _("Sign-in sheet for the office")
ABOUT = "session"

LINES_FOR_OTHERS = 5
SHARES = (4.6, 1.3, 1.3, 2.6)
ROOM_TO_WRITE = 1.9


@dataclass(frozen=True)
class Facts:
    """Names only, as the office needs them; no phone, no reason, no clearance. `names` are in the order to print."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    starts: time
    ends: time
    place: str
    job: str
    names: tuple[str, ...] = ()
    sign_in: str = ""


def draw(facts: Facts) -> bytes:
    """The sheet as a PDF; the same facts give the same bytes."""
    return draw_many([facts])


def draw_many(many: Iterable[Facts]) -> bytes:
    """The sheets of several sessions behind each other in one PDF."""
    file = BytesIO()
    write_many(many, file)
    return file.getvalue()


def write_many(many: Iterable[Facts], file: BinaryIO) -> int:
    """Writes sheets to a file and returns how many pages that made; ValueError when there are none."""
    book: Book | None = None
    for facts in many:
        words = SIGN_IN[facts.language]
        book = book or Book(
            paper(facts.paper), title=words.sheet, author=facts.letterhead.school, language=facts.language
        )
        draw_sheet(_sheet(on_paper(facts)), book)
    if book is None:
        raise ValueError("There is no sheet to draw.")
    book.save(file)
    return book.pages


def gaps(facts: Facts) -> tuple[Gap, ...]:
    return (
        *found(unless(facts.names, "no-names", _("Nobody said yes yet: the lines are empty."), "names")),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = SIGN_IN[facts.language], facts.language
    when = when_words(facts.day, facts.starts, facts.ends, language)
    about = f"{facts.place}: {job_words(facts.job, language)}"
    return Sheet(
        title=words.sheet,
        head=(facts.letterhead,),
        flow=(
            Stack((Heading(words.sheet, before=0), Paragraph((bold(when),), before=0.2), Paragraph(about, before=0.1))),
            Paragraph(" ".join(part for part in (words.rules, facts.sign_in) if part)),
            _lines(facts, facts.names),
            _others(facts),
            Paragraph(words.badge),
        ),
        together=2,
        looks=SHEET_LOOKS[:9],
        spilled=Look(12, 1.0),
        running=f"{words.sheet}, {when}",
        page_words=words.page,
    )


def _lines(facts: Facts, names: tuple[str, ...]) -> Table:
    titles = SIGN_IN[facts.language].columns
    columns = tuple(Column(title, share) for title, share in zip(titles, SHARES, strict=True))
    return Table(columns, tuple(cells(name, "", "", "") for name in names), room=ROOM_TO_WRITE)


def _others(facts: Facts) -> Block:
    """Lines for whoever comes unexpected; they have the columns' headings only where no table stands above."""
    words = SIGN_IN[facts.language]
    heading = Paragraph((bold(words.unexpected),) if facts.names else "", heads=True)
    return Stack((heading, _lines(facts, ("",) * LINES_FOR_OTHERS)))
