"""A sheet for each class of a trade: how many to make, in which lessons, what is written on it, and boxes to tick."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Beside,
    Block,
    Book,
    Boxes,
    Column,
    Framed,
    Heading,
    Pairs,
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
    text_width,
)
from outreach.wording.counts import Item, counted, number, students, whole, with_kind
from outreach.wording.dates import day_and_date, spelled, with_weekday
from outreach.wording.trade import PLAN, PlanWords

SLUG = "class-plan"
TITLE = _("Sheet for each class")
ABOUT = "trade"

LARGE_BOXES, MOST_BOXES = 60, 150
"""More than these no hand ticks one by one: then each lesson gets a line to write on."""
LINES = 8


@dataclass(frozen=True)
class ClassPart:
    """One class: its share, of which `done` are made; `lessons` are the days it works on, from the start.

    `fits` False: not all that is left can be made by the day. `plain` is how many plain items it takes along.
    """

    label: str
    school: str
    share: int
    children: int = 0
    grade: str = ""
    lessons: tuple[date, ...] = ()
    fits: bool = True
    done: int = 0
    spoiled: int = 0
    plain: int = 0

    @property
    def left(self) -> int:
        return max(0, self.share - self.done)


@dataclass(frozen=True)
class Facts:
    """Everything the sheets of one trade say. `what` and `size` are the thing's own words, without a number."""

    language: str
    paper: str
    day: date
    what: str
    partner: str
    due: date
    classes: tuple[ClassPart, ...] = ()
    size: str = ""
    minutes: int = 0
    materials: str = ""
    names_on_work: str = ""
    teacher: str = ""


def _book(facts: Facts) -> Book:
    title = f"{facts.what}: {facts.partner}"
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    clean = on_paper(facts)
    for part in clean.classes:
        draw_sheet(_sheet(clean, part), book)
    if not clean.classes:
        draw_sheet(_nobody(clean), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the sheets lack."""
    late = any(not part.fits for part in facts.classes)
    return (
        *found(
            unless(facts.classes, "no-classes", _("No class takes part yet."), "classes"),
            unless(facts.materials, "no-materials", _("Which materials?"), "materials"),
            when(late, "not-all", _("Not every class can make its share by the day."), "classes"),
        ),
        *missing_signs(facts),
    )


def _nobody(facts: Facts) -> Sheet:
    return Sheet(title=facts.what, flow=(Heading(facts.what), Paragraph(PLAN[facts.language].nobody)))


def _sheet(facts: Facts, part: ClassPart) -> Sheet:
    words, language = PLAN[facts.language], facts.language
    where = ", ".join(text for text in (part.school, part.grade) if text)
    ready = words.ready.format(day=spelled(facts.due, language))
    return Sheet(
        title=f"{part.label}, {part.school}",
        head=(Beside(left=(Paragraph(where),), right=Paragraph(ready, side="right"), wide=text_width(ready) + 2),),
        flow=(
            Heading(part.label, before=0, size=30),
            Framed((Paragraph((bold(_asked(facts, part)),), step=5), Paragraph((bold(_start(facts, part)),), step=2))),
            _pairs(facts, part),
            *_tally(facts, part),
        ),
        foot=(Paragraph(words.as_of.format(day=spelled(facts.day, language))),),
        looks=SHEET_LOOKS,
        running=f"{part.label}, {part.school}: {facts.what}",
        page_words=words.page,
    )


def _asked(facts: Facts, part: ClassPart) -> str:
    what = with_kind(Item(facts.what, part.share, kind=facts.size), facts.language)
    return f"{what} {PLAN[facts.language].for_partner.format(partner=facts.partner)}"


def _start(facts: Facts, part: ClassPart) -> str:
    words = PLAN[facts.language]
    if not part.left:
        return words.all_done
    if not part.fits or not part.lessons:
        return words.start_now
    return f"{words.start}: {with_weekday(part.lessons[0], facts.language)}"


def _plain(part: ClassPart, words: PlanWords) -> str:
    if not part.plain:
        return ""
    return (words.plain_each if part.plain > part.left else "{count}").format(count=number(part.plain))


def _pairs(facts: Facts, part: ClassPart) -> Block:
    words, language = PLAN[facts.language], facts.language
    days = "; ".join(day_and_date(day, language) for day in part.lessons)
    lessons = f"{len(part.lessons)}: {days}" if days else ""
    gone = ((part.done, words.done_before), (part.spoiled, words.spoiled_before))
    before = ", ".join(pattern.format(count=number(count)) for count, pattern in gone if count)
    return Pairs(
        (
            (words.children, students(part.children, language) if part.children else ""),
            (words.lessons, lessons),
            (words.minutes, words.each.format(minutes=facts.minutes) if facts.minutes else ""),
            (words.plain, _plain(part, words)),
            (words.materials, whole(facts.materials)),
            (words.names, whole(facts.names_on_work)),
            (words.tally, before),
        )
    )


def _tally(facts: Facts, part: ClassPart) -> tuple[Block, ...]:
    """A box for each item that is left and some for spoiled ones; of many, a line for each day."""
    words = PLAN[facts.language]
    if not part.left:
        return ()
    if part.left > MOST_BOXES:
        columns = tuple(Column(title) for title in words.lines)
        return (Table(columns, (cells("", "", ""),) * LINES, room=1.2),)
    spoiled = max(5, part.plain - part.share)
    side = 20.0 if part.left <= LARGE_BOXES else 15.0
    return (
        Stack((Paragraph((bold(words.tick),), heads=True), Boxes(part.left, side)), before=1.2),
        Stack((Paragraph((bold(words.tick_spoiled),), heads=True), Boxes(min(spoiled, 50), side)), before=0.9),
    )


def described(facts: Facts) -> str:
    """What is made, with its number over all classes."""
    return counted(Item(facts.what, sum(part.share for part in facts.classes)), facts.language)
