"""Two minutes before a board or a club: five sentences from the record above the fold, below it what they may ask."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
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
    measured,
    on_paper,
    paper,
)
from outreach.wording.talk import TALK, sentences, voice
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
    return Book(
        paper(facts.paper), title=voice(facts.year)("title"), author=facts.year.teacher, language=facts.language
    )


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the talk lacks."""
    told = sentences(facts.year)
    pages = measured(_sheet(on_paper(facts)), paper(facts.paper)).pages
    return (
        *found(
            unless(
                len(told) >= SENTENCES, "few-sentences", _("The record gives fewer than five sentences yet."), "year"
            ),
            unless(facts.year.became, "nothing-became", _("No project tells yet what it became."), "year"),
            when(len(pages) > 1, "second-page", _("It runs over one page."), "year"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    year, words, say = facts.year, TALK[facts.language], voice(facts.year)
    size = paper(facts.paper)
    asked = (
        Paragraph((bold(say("if_asked")),), step=2, heads=True),
        Pairs(counted(year, YEAR[facts.language])),
        Paragraph(words.careful),
    )
    return Sheet(
        title=say("title"),
        flow=(
            Heading(say("title"), before=0),
            Numbered(tuple(sentences(year)[:SENTENCES])),
        ),
        foot=(Folded(asked, size.height / 2 - size.bottom, size.side),),
        looks=LOOKS,
        running=say("title"),
        page_words=words.page,
    )
