"""The sheet for the night before a show is hung, for the teacher: what to bring, who comes when, what to do."""

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
    Numbered,
    Pairs,
    Paragraph,
    Run,
    Section,
    Sheet,
    Span,
    Stack,
    Table,
    Ticks,
    bold,
    cells,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import number
from outreach.wording.dates import day_and_date, with_weekday
from outreach.wording.helping import NIGHT, job_words
from outreach.wording.hours import from_until, hour

SLUG = "night-before"
TITLE = _("Sheet for the night before")
ABOUT = "show"

SHARES = (2.2, 2.2, 4)
LONG_THING = 30


@dataclass(frozen=True)
class Coming:
    """One session, and the names of those who said yes to it."""

    day: date
    starts: time
    ends: time
    job: str
    names: tuple[str, ...] = ()


@dataclass(frozen=True)
class PanelsOf:
    label: str
    works: int
    panels: int


@dataclass(frozen=True)
class Facts:
    """What the teacher has in hand on the evening before; `bring` are the things of the jobs, without the usual ones.

    `phones` are (name, number); they make this a sheet for nobody else.
    """

    language: str
    paper: str
    title: str
    opens_on: date
    works: int
    works_per_panel: int
    panels: int
    opens_at: time | None = None
    place: str = ""
    bring: tuple[str, ...] = ()
    sessions: tuple[Coming, ...] = ()
    order: tuple[str, ...] = ()
    phones: tuple[tuple[str, str], ...] = ()
    classes: tuple[PanelsOf, ...] = ()
    teacher: str = ""


def _book(facts: Facts) -> Book:
    title = NIGHT[facts.language].sheet.format(title=facts.title)
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    alone = any(len(session.names) < 2 for session in facts.sessions if session.job in ("hanging", "taking_down"))
    return (
        *found(
            unless(facts.sessions, "no-sessions", _("No session with helpers is planned."), "sessions"),
            when(alone, "alone", _("Fewer than two helpers said yes where ladders are used."), "sessions"),
            unless(facts.phones, "no-phones", _("No phone number of anybody who comes."), "phones"),
            unless(facts.classes, "no-classes", _("No classes in the book: panels are not told class by class."), ""),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = NIGHT[facts.language], facts.language
    opening = (
        f"{with_weekday(facts.opens_on, language)}{f', {hour(facts.opens_at, language)}' if facts.opens_at else ''}"
    )
    title = words.sheet.format(title=facts.title)
    when = f"{words.opens}: {opening}"
    return Sheet(
        title=title,
        flow=(
            Stack((Heading(title, before=0), Paragraph((bold(when),), before=0.2), Paragraph(facts.place, before=0.1))),
            Framed((Paragraph((bold(words.private),)),), before=0.5) if facts.phones else Framed(()),
            _bring(facts),
            _comes(facts),
            _part(words.order, Numbered(facts.order, gap=0.12, before=0.3)),
            _part(words.phones, Pairs(facts.phones, gap=0.12, before=0.3)),
            _panels(facts),
        ),
        looks=SHEET_LOOKS[3:],
        spilled=Look(12, 0.9),
        running=title,
        page_words=words.page,
    )


def _part(title: str, block: Block) -> Block:
    return Section(Paragraph((bold(title),), step=1), block)


def _bring(facts: Facts) -> Block:
    """Two columns, unless a thing is so long that they would not fit."""
    words = NIGHT[facts.language]
    named = {thing.casefold().removeprefix("the "): thing for thing in (*facts.bring, *words.always_bring)}
    things = tuple(named.values())
    columns = 1 if max(map(len, things)) > LONG_THING else 2
    return _part(words.bring, Ticks(tuple(Choice(thing) for thing in things), columns=columns, before=0.3))


def _comes(facts: Facts) -> Block:
    words, language = NIGHT[facts.language], facts.language
    columns = tuple(Column(name, share) for name, share in zip(words.columns, SHARES, strict=True))
    rows = tuple(
        cells(
            f"{day_and_date(one.day, language)}, {from_until(one.starts, one.ends, language)}",
            job_words(one.job, language),
            ", ".join(one.names) or words.nobody_yet,
        )
        for one in facts.sessions
    )
    return _part(words.comes, Table(columns, rows, before=0.3))


def _panels(facts: Facts) -> Block:
    """All together, and class after class in running text."""
    words = NIGHT[facts.language]
    shared = words.shared.format(
        works=number(facts.works), panels=number(facts.panels), on=number(facts.works_per_panel)
    )
    spans = []
    for one in facts.classes:
        told = words.on_panels[one.panels != 1].format(works=number(one.works), panels=number(one.panels))
        spans += [bold(one.label), Span(f": {told}" + ("; " if one is not facts.classes[-1] else "."))]
    return _part(words.panels, Stack((Paragraph(shared, before=0), Paragraph(tuple(spans), before=0.3)), before=0.2))
