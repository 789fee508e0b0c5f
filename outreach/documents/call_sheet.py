"""Whom to call before a session, for the teacher alone: phone, best way, language, and boxes for the answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Choice,
    Column,
    Framed,
    Heading,
    Look,
    Paragraph,
    Run,
    Section,
    Sheet,
    Stack,
    Table,
    Ticks,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.dates import spelled
from outreach.wording.helping import CALL, job_words
from outreach.wording.hours import when_words

SLUG = "call-sheet"
TITLE = _("Call sheet")
ABOUT = "session"

SHARES = (2.75, 4.4, 2.05, 2.8)


@dataclass(frozen=True)
class Person:
    """One helper as the teacher reaches them; `way` is a code of the best way.

    Who is not `cleared` on the day of the session may be so `cleared_until` a day before it.
    """

    name: str
    phone: str = ""
    email: str = ""
    way: str = ""
    language: str = ""
    cleared: bool = True
    cleared_until: date | None = None


@dataclass(frozen=True)
class Facts:
    """Who is asked and has not answered, and who said yes. Nothing here is for anybody but the teacher."""

    language: str
    paper: str
    day: date
    starts: time
    ends: time
    place: str
    job: str
    needed: int
    asked: tuple[Person, ...] = ()
    said_yes: tuple[Person, ...] = ()
    teacher: str = ""
    over: bool = False


def _book(facts: Facts) -> Book:
    title = CALL[facts.language].sheet
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    people = (*facts.asked, *facts.said_yes)
    out_of_reach = [person.name for person in people if not (person.phone or person.email)]
    return (
        *found(
            unless(people, "nobody", _("Nobody is asked yet."), "asked"),
            when(out_of_reach, "no-way", _("Somebody has neither phone nor e-mail."), "asked"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = CALL[facts.language], facts.language
    when = when_words(facts.day, facts.starts, facts.ends, language)
    about = f"{facts.place}: {job_words(facts.job, language)}"
    nobody = "" if facts.asked or facts.said_yes else words.nobody
    counted = words.needed.format(yes=len(facts.said_yes), needed=facts.needed)
    return Sheet(
        title=words.sheet,
        flow=(
            Stack((Heading(words.sheet, before=0), Paragraph((bold(when),), before=0.2), Paragraph(about, before=0.1))),
            Framed((Paragraph((bold(words.private),)),), before=0.6),
            Paragraph(nobody or counted),
            *_group(facts, words.asked, facts.asked),
            *_group(facts, words.said_yes_then if facts.over else words.said_yes, facts.said_yes),
        ),
        looks=SHEET_LOOKS[12:],
        spilled=Look(12, 1.0),
        running=f"{words.sheet}, {when}",
        page_words=words.page,
    )


def _group(facts: Facts, title: str, people: tuple[Person, ...]) -> tuple[Block, ...]:
    if not people:
        return ()
    words = CALL[facts.language]
    columns = tuple(Column(name, share) for name, share in zip(words.columns, SHARES, strict=True))
    rows = tuple(_row(facts, person) for person in people)
    return (Section(Paragraph((bold(title),), step=1), Table(columns, rows, before=0.3)),)


def _row(facts: Facts, person: Person) -> tuple[Block, ...]:
    words = CALL[facts.language]
    reach = Stack(
        (Paragraph((bold(person.phone),) if person.phone else "", before=0), Paragraph(person.email, before=0))
    )
    way = Stack((Paragraph(words.ways.get(person.way, ""), before=0), Paragraph(person.language, before=0)))
    who = Stack((Paragraph(person.name, before=0), Paragraph(_office(facts, person), before=0.1)))
    yes, no, later = (Choice(answer) for answer in words.answers)
    answers = Stack((Ticks((yes, no), before=0), Ticks((later,), before=0)))
    return (who, reach, way, answers)


def _office(facts: Facts, person: Person) -> str:
    """What to ask the office before this helper comes."""
    words = CALL[facts.language]
    if person.cleared:
        return ""
    if person.cleared_until is None:
        return words.not_cleared
    return words.cleared_until.format(day=spelled(person.cleared_until, facts.language))
