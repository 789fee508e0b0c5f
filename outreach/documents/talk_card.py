"""Two minutes before a board or a club: five sentences from the record above the fold, below it what they may ask."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    Book,
    Folded,
    Heading,
    Look,
    Numbered,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.talk import TALK, sentences
from outreach.wording.year import YEAR
from outreach.wording.year_counts import counted
from outreach.wording.year_facts import Facts as YearFacts

SLUG = "talk-card"
TITLE = _("Card for a two-minute talk")
ABOUT = "school"
LOOKS = tuple(Look(size, 1.0) for size in (18, 17, 16, 15, 14, 13, 12))
SENTENCES = 5


@dataclass(frozen=True)
class Facts:
    """The year that is talked of."""

    year: YearFacts

    @property
    def language(self) -> str:
        return self.year.language

    @property
    def paper(self) -> str:
        return self.year.paper


def _book(facts: Facts) -> Book:
    title = TALK[facts.language].title.format(year=facts.year.year)
    return Book(paper(facts.paper), title=title, author=facts.year.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the talk lacks."""
    told = sentences(facts.year)
    return (
        *found(
            unless(
                len(told) >= SENTENCES, "few-sentences", _("The record gives fewer than five sentences yet."), "year"
            ),
            unless(facts.year.became, "nothing-became", _("No project tells yet what it became."), "year"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    year, words = facts.year, TALK[facts.language]
    size = paper(facts.paper)
    asked = (
        Paragraph((bold(words.if_asked),), step=2, heads=True),
        Pairs(counted(year, YEAR[facts.language])),
        Paragraph(words.careful),
    )
    return Sheet(
        title=words.title.format(year=year.year),
        flow=(
            Heading(words.title.format(year=year.year), before=0),
            Numbered(tuple(sentences(year)[:SENTENCES])),
        ),
        foot=(Folded(asked, size.height / 2 - size.bottom, size.side),),
        looks=LOOKS,
        running=words.title.format(year=year.year),
        page_words=words.page,
    )
