"""An application to read over or to send as it is: what for, how much, the answers, and the money line by line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.documents.grant_claim import amount
from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Column,
    Heading,
    Letterhead,
    Look,
    Pairs,
    Paragraph,
    Run,
    Section,
    Sheet,
    Stack,
    Table,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import dollars, number
from outreach.wording.dates import spelled
from outreach.wording.grant import GRANT
from outreach.wording.grant_facts import BudgetLine

SLUG = "grant-application"
TITLE = _("Application")
ABOUT = "grant"

LOOKS = tuple(look for look in SHEET_LOOKS if look.size <= 12.5)


@dataclass(frozen=True)
class Facts:
    """Everything the application says; `answers` are (question, paragraphs), money in cents."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    partner: str
    title: str
    teacher: str
    asked: int | None = None
    answers: tuple[tuple[str, tuple[str, ...]], ...] = ()
    lines: tuple[BudgetLine, ...] = ()

    @property
    def planned(self) -> int:
        return sum(line.planned + line.shipping for line in self.lines)


def _book(facts: Facts) -> Book:
    title = f"{GRANT[facts.language].application}: {facts.title}"
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    title = f"{GRANT[facts.language].application}: {facts.title}"
    draw_sheet(_sheet(on_paper(facts), title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What an application is sent back for."""
    differ = facts.asked is not None and bool(facts.lines) and facts.asked != facts.planned
    return (
        *found(
            unless(facts.asked, "no-amount", _("How much is asked for?"), "asked"),
            unless(facts.answers, "no-answers", _("No question is answered yet."), "answers"),
            unless(facts.lines, "no-lines", _("No line says what is bought for how much."), "lines"),
            when(differ, "sums", _("The lines do not come to what is asked for."), "lines"),
            unless(facts.teacher, "no-teacher", _("Your name is missing."), "teacher"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    words = GRANT[facts.language]
    return Sheet(
        title=title,
        head=(facts.letterhead, Paragraph(spelled(facts.day, facts.language), side="right", before=0.9)),
        flow=(
            Heading(facts.title[:1].upper() + facts.title[1:], before=0),
            Pairs(
                (
                    (words.to, facts.partner),
                    (words.of, ", ".join(part for part in (facts.teacher, facts.letterhead.school) if part)),
                    (words.asked, dollars(facts.asked) if facts.asked is not None else ""),
                ),
                before=0.5,
                gap=0.15,
            ),
            *(_answer(question, told) for question, told in facts.answers),
            *_budget(facts),
        ),
        flow_gap=1.0,
        looks=LOOKS,
        spilled=Look(12, 1.0),
        running=title,
        page_words=words.page,
    )


def _answer(question: str, paragraphs: tuple[str, ...]) -> Block:
    told = tuple(Paragraph(part, before=0.3) for part in paragraphs)
    return Section(Paragraph((bold(question),)), Stack(told, before=0.2))


def _budget(facts: Facts) -> tuple[Block, ...]:
    if not facts.lines:
        return ()
    words = GRANT[facts.language]
    named = [f"{line.what} × {number(line.quantity)}" if line.quantity else line.what for line in facts.lines]
    rows = [
        _row(Paragraph(name, before=0), line.planned, line.shipping)
        for name, line in zip(named, facts.lines, strict=True)
    ]
    goods, shipping = (sum(getattr(line, name) for line in facts.lines) for name in ("planned", "shipping"))
    rows.append(_row(Paragraph((bold(words.together),), before=0), goods, shipping, strong=True))
    columns = tuple(Column(name, share) for name, share in zip(words.budget, (4, 1.7, 1.5, 1.5), strict=True))
    return (Section(Paragraph((bold(words.by_line),)), Table(columns, tuple(rows), before=0.3)),)


def _row(name: Block, goods: int, shipping: int, *, strong: bool = False) -> tuple[Block, ...]:
    return (name, *(amount(one, strong=strong) for one in (goods, shipping, goods + shipping)))
