"""The sheet that lies at the office during a session: who is expected, when they came and left, room for others."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

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
    Run,
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


def _book(facts: Facts) -> Book:
    words = SIGN_IN[facts.language]
    return Book(paper(facts.paper), title=words.sheet, author=facts.letterhead.school, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


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
