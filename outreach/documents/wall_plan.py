"""The plan of a trade for the wall: every class in its row, every week a column, when each begins and ends.

Its facts are those of the sheets for each class.
"""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby

from django.utils.translation import gettext_lazy as _

from outreach.documents.class_plan import ClassPart, Facts, described, gaps
from outreach.page import (
    Beside,
    Book,
    Grid,
    GridRow,
    Heading,
    Look,
    Paper,
    Paragraph,
    Run,
    Sheet,
    draw_sheet,
    on_paper,
    paper,
    sideways,
    text_width,
)
from outreach.wording.counts import number
from outreach.wording.dates import short, spelled
from outreach.wording.trade import PLAN

__all__ = ["ABOUT", "SLUG", "TITLE", "Facts", "draw", "draw_many", "gaps", "write_many"]

SLUG = "wall-plan"
TITLE = _("Plan for the wall")
ABOUT = "trade"

CLOSE = Look(11, 0.7, lead=1.04)
"""26 classes of two schools on one page, 48 of three on two."""
LOOKS = (*(Look(size, 1.0, lead=1.3) for size in (14, 13, 12, 11.5, 11)), CLOSE)
LARGE_COLUMNS, MOST_COLUMNS = 7, 10
"""So many weeks stand beside each other; a longer time takes two weeks to a column, or three."""
WEEK = timedelta(weeks=1)


def _book(facts: Facts) -> Book:
    words, sheet = PLAN[facts.language], sideways(paper(facts.paper))
    title = f"{words.wall}: {facts.what}"
    return Book(sheet, title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts), sideways(paper(facts.paper))), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def _sheet(facts: Facts, sheet: Paper) -> Sheet:
    words, language = PLAN[facts.language], facts.language
    ready = words.ready.format(day=spelled(facts.due, language))
    what = f"{described(facts)} {words.for_partner.format(partner=facts.partner)}"
    day = spelled(facts.day, language)
    return Sheet(
        title=f"{words.wall}: {facts.what}",
        flow=(
            Beside(
                left=(Heading(words.wall, before=0),), right=Paragraph(day, side="right"), wide=text_width(day) * 1.3
            ),
            Paragraph(f"{what}. {ready}.", before=0.2),
            _grid(facts),
            Paragraph("" if facts.classes else words.nobody),
        ),
        looks=LOOKS if len(columns(facts)) <= LARGE_COLUMNS else LOOKS[2:],
        spilled=CLOSE,
        running=f"{words.wall}: {facts.what}, {ready}",
        page_words=words.page,
    )


def _grid(facts: Facts) -> Grid:
    words, language = PLAN[facts.language], facts.language
    starts = columns(facts)
    rows: list[GridRow] = []
    for school, parts in groupby(facts.classes, key=lambda part: part.school):
        rows.append(GridRow(school, heading=True))
        rows.extend(_row(facts, part, starts) for part in parts)
    return Grid((words.klass, words.items), tuple(short(day, language) for day in starts), tuple(rows))


def _row(facts: Facts, part: ClassPart, starts: tuple[date, ...]) -> GridRow:
    words = PLAN[facts.language]
    amount = number(part.share)
    if not part.left:
        return GridRow(part.label, amount, words.all_done)
    if not part.fits or not part.lessons:
        return GridRow(part.label, amount, words.not_all)
    first, last = (_column(day, starts) for day in (part.lessons[0], part.lessons[-1]))
    return GridRow(part.label, amount, short(part.lessons[0], facts.language), first, last)


def columns(facts: Facts) -> tuple[date, ...]:
    """The Monday that each column begins with, from the first lesson through the day it is due."""
    days = [day for part in facts.classes if part.fits for day in part.lessons]
    first, last = (monday(day) for day in (min([*days, facts.due]), max([*days, facts.due])))
    weeks = (last - first) // WEEK + 1
    step = -(-weeks // MOST_COLUMNS)
    return tuple(first + WEEK * week for week in range(0, weeks, step))


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _column(day: date, starts: tuple[date, ...]) -> int:
    return max(place for place, start in enumerate(starts) if start <= day)
