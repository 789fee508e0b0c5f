"""The slip for the copier: how many letters home each class takes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    Book,
    Framed,
    Heading,
    Letterhead,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.dates import spelled

SLUG = "letter-copies"
TITLE = _("Copies of the letter home")
ABOUT = "school"


@dataclass(frozen=True)
class Copies:
    label: str
    students: int
    spare: int

    @property
    def count(self) -> int:
        return self.students + self.spare if self.students else 0


@dataclass(frozen=True)
class Facts:
    """Classes with their numbers; `pages` are the printed sides of one letter."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    classes: tuple[Copies, ...] = ()
    pages: int = 2
    draft: bool = False

    @property
    def total(self) -> int:
        return sum(one.count for one in self.classes)

    @property
    def leaves(self) -> int:
        """Pieces of paper in one letter, printed on both sides."""
        return -(-self.pages // 2)


def _book(facts: Facts) -> Book:
    return Book(paper(facts.paper), title=f"Copies: {facts.letterhead.school}", language="en")


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    return (
        *found(
            unless(facts.classes, "no-classes", _("No classes are entered for this school."), "classes"),
            when(facts.draft, "draft", _("Not approved yet: do not copy the letter before it is."), "draft"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    each = "1 sheet of paper" if facts.leaves == 1 else f"{facts.leaves} sheets of paper"
    how = f"Both sides, flip on the long edge, {each} each. Do not staple over the slip at the foot."
    total = f"{facts.total:,} letters, {facts.total * facts.leaves:,} sheets of paper"
    rows = [(one.label, _row(one)) for one in facts.classes]
    return Sheet(
        title="Copies of the letter home",
        head=(facts.letterhead,),
        flow=(
            Heading("Copies of the letter home", before=0),
            Paragraph(spelled(facts.day, "en"), before=0.2),
            Framed((Paragraph((bold(total),), step=2, before=0), Paragraph(how, before=0.3))),
            Pairs(tuple(rows)),
        ),
        running=f"Copies of the letter home, {facts.letterhead.school}",
        watermark="NOT YET" if facts.draft else "",
    )


def _row(one: Copies) -> str:
    if not one.count:
        return "no students are entered"
    return f"{one.count} copies ({one.students} + {one.spare} spare)"
