"""The report on a grant: a letter that says what the money became, with its lines planned beside spent."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.utils.translation import gettext_lazy as _

from outreach.documents.grant_claim import amount
from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    LETTER_LOOKS,
    Address,
    Block,
    Book,
    Bullets,
    Column,
    Letterhead,
    Paragraph,
    Picture,
    Run,
    Section,
    Sheet,
    Shown,
    SignOff,
    Stack,
    Table,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import dollars, reached, sentence
from outreach.wording.dates import spelled
from outreach.wording.grant import GRANT, REPORT, agreed_words, report_paragraphs
from outreach.wording.grant_facts import Agreed, BudgetLine
from outreach.wording.gratitude import Thanks, salutation
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from outreach.wording.records import RECORDS
from partners.gifts.letter_phrases import asks_inside

SLUG = "grant-report"
TITLE = _("Report on the grant")
ABOUT = "grant"


@dataclass(frozen=True)
class Facts:
    """Everything the report says, money in cents. Children are only counted.

    `greeting` says whom it greets. `picture` shows what it became and no child;
    `became` is the project's own sentence, written since the award; `students` how many children it reaches.
    `paragraphs` is the body as the teacher edited it; while it is empty the body is worded from the record.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    partner: str
    title: str
    teacher: str
    awarded: int
    awarded_on: date
    greeting: Thanks | None = None
    role: str = ""
    address: Address = Address()  # noqa: RUF009 - frozen
    asked: int | None = None
    rest_back_on: date | None = None
    became: str = ""
    students: int | None = None
    lines: tuple[BudgetLine, ...] = ()
    changes: tuple[Agreed, ...] = ()
    paragraphs: tuple[str, ...] = ()
    enclosures: tuple[str, ...] = ()
    picture: Picture | None = None
    picture_shows: str = ""
    wording: OwnWords = HOUSE
    signature: Picture | None = None

    @property
    def spent(self) -> int:
        return sum(line.paid for line in self.lines)

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        return self.paragraphs or report_paragraphs(
            self.say,
            awarded=self.awarded,
            asked=self.asked,
            spent=self.spent,
            bought=[line.what for line in self.lines if line.paid > 0],
            rest_back_on=self.rest_back_on,
        )

    @cached_property
    def say(self) -> Voice:
        """The words of the report, with what fills their blanks."""
        values = {
            "partner": self.partner,
            "title": self.title,
            "amount": dollars(self.awarded),
            "day": spelled(self.awarded_on, self.language),
            "children": reached(self.students, self.language, self.became),
            "what it became": sentence(self.became),
            "teacher": self.teacher,
            "school": self.letterhead.school,
        }
        return Voice(REPORT, self.language, GRANT[self.language], self.wording, values)


def _book(facts: Facts) -> Book:
    title = f"{GRANT[facts.language].report}: {facts.title}"
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    title = f"{GRANT[facts.language].report}: {facts.title}"
    draw_sheet(_sheet(on_paper(facts), title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the report lacks, and what does not belong in one."""
    ask = asks_inside("\n\n".join(facts.body))
    over = any(line.left < 0 for line in facts.lines)
    differ = bool(facts.lines) and sum(line.has for line in facts.lines) != facts.awarded
    return (
        *found(
            unless(facts.awarded, "not-awarded", _("It is not awarded yet."), "awarded"),
            unless(facts.became, "no-becomes", _("What did it become? Write it on the project’s page."), "became"),
            unless(
                facts.students, "no-students", _("For how many children? It stands on the project’s page."), "students"
            ),
            unless(facts.spent, "nothing-spent", _("No receipt is charged to it yet."), "lines"),
            when(differ, "sums", _("The lines do not come to the award."), "lines"),
            when(facts.spent > facts.awarded, "too-much", _("More is spent than was awarded."), "lines"),
            when(over, "over", _("A line has more on it than was approved; was a change agreed?"), "lines"),
            when(ask, "ask", _("The report holds another ask; that is better kept for another letter."), "body"),
            unless(facts.teacher, "no-teacher", _("Your name is missing."), "teacher"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    words, day = GRANT[facts.language], spelled(facts.day, facts.language)
    records = RECORDS[facts.language]
    enclosed = ", ".join(thing for thing in facts.enclosures if thing)
    closing: tuple[Block, ...] = (
        SignOff(records.closing, facts.teacher, facts.role, facts.signature),
        Paragraph(records.enclosed.format(things=enclosed) if enclosed else ""),
    )
    return Sheet(
        title=title,
        head=(facts.letterhead, Paragraph(day, side="right", before=0.9)),
        flow=(
            Stack(tuple(Paragraph(line, before=0) for line in facts.address.lines()), before=0),
            Paragraph((bold(title),), step=1, before=1.2),
            Paragraph(salutation(facts.greeting) if facts.greeting else "", before=0.9),
            *(Paragraph(text, before=0.75) for text in facts.body),
            *_picture(facts),
            *_lines(facts),
            *_changes(facts),
            *closing,
        ),
        flow_gap=1.2,
        together=len(closing),
        looks=LETTER_LOOKS,
        running=f"{title}, {day}",
        page_words=words.page,
    )


def _picture(facts: Facts) -> tuple[Block, ...]:
    return (Shown(facts.picture, facts.picture_shows),) if facts.picture else ()


def _lines(facts: Facts) -> tuple[Block, ...]:
    """Planned with shipping, changed by agreement, spent, left; the changed ones only where there are any."""
    if not facts.lines:
        return ()
    words = GRANT[facts.language]
    changed = any(line.moved for line in facts.lines)
    names = [name for name in words.report_lines if changed or name != words.report_lines[2]]
    rows = [_row(Paragraph(line.what, before=0), _money(line), changed) for line in facts.lines]
    sums = [sum(column) for column in zip(*(_money(line) for line in facts.lines), strict=True)]
    rows.append(_row(Paragraph((bold(words.together),), before=0), sums, changed, strong=True))
    columns = tuple(Column(name, 4 if place == 0 else 1.5) for place, name in enumerate(names))
    return (Table(columns, tuple(rows), before=1.0),)


def _money(line: BudgetLine) -> list[int]:
    return [line.planned + line.shipping, line.moved, line.paid, line.left]


def _row(name: Block, cents: list[int], changed: bool, *, strong: bool = False) -> tuple[Block, ...]:
    shown = cents if changed else [cents[0], *cents[2:]]
    return (name, *(amount(one, strong=strong) for one in shown))


def _changes(facts: Facts) -> tuple[Block, ...]:
    if not facts.changes:
        return ()
    told = tuple(agreed_words(change, facts.language) for change in facts.changes)
    return (Section(Paragraph((bold(GRANT[facts.language].changes),)), Bullets(told, before=0.3)),)
