"""A note of thanks to one helper: the hours that were given and what for. No value, no ask."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    LETTER_LOOKS,
    Book,
    Letterhead,
    Look,
    Paragraph,
    Picture,
    Run,
    Sheet,
    SignOff,
    draw_sheet,
    measured,
    on_paper,
    paper,
)
from outreach.wording.dates import spelled
from outreach.wording.helper_thanks import NAME, NOTE, paragraphs, said_of
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from partners.gifts.letter_phrases import asks_inside, value_in_text

SLUG = "helper-note"
TITLE = _("Note of thanks to a helper")
ABOUT = "helper"

LOOKS = (Look(14, 1.2), Look(13, 1.15), *LETTER_LOOKS)


@dataclass(frozen=True)
class Facts:
    """Everything the note says. `jobs` are what was helped with, in words; `minutes` is all the time that was given.

    `text` is the body as the teacher edited it; while it is empty the body is worded from hours and jobs.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    helper: str
    teacher: str
    role: str = ""
    minutes: int = 0
    jobs: tuple[str, ...] = ()
    text: tuple[str, ...] = ()
    enclosures: tuple[str, ...] = ()
    wording: OwnWords = HOUSE
    signature: Picture | None = None

    @cached_property
    def say(self) -> Voice:
        """The words of the note, with what fills their blanks."""
        values = {
            **said_of(self.helper, self.minutes, self.jobs, self.language),
            "teacher": self.teacher,
            "school": self.letterhead.school,
        }
        return Voice(NAME, self.language, NOTE[self.language], self.wording, values)

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        return self.text or paragraphs(self.say, self.minutes, self.jobs)


def _book(facts: Facts) -> Book:
    return Book(paper(facts.paper), title=facts.say("title"), author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the note lacks, and what a thank-you never says."""
    clean = on_paper(facts)
    text = "\n\n".join(clean.body)
    value, ask = value_in_text(text), asks_inside(text)
    value_words = format_lazy("{words} “{snippet}”", words=VALUE, snippet=value[0] if value else "")
    ask_words = format_lazy("{words} “{snippet}”", words=ASK, snippet=ask[0] if ask else "")
    long = len(measured(_sheet(clean), paper(facts.paper)).pages) > 1
    return (
        *found(
            unless(clean.helper, "no-name", _("No name to thank."), "helper"),
            unless(clean.minutes, "no-hours", _("No hours are written down yet."), "minutes"),
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            when(value, "value", value_words, "text", stops=True),
            when(ask, "ask", ask_words, "text", stops=True),
            when(long, "second-page", _("It goes on to a second page."), "text"),
        ),
        *missing_signs(facts),
    )


VALUE = _("A note names hours, never their value.")
ASK = _("A thank-you never holds another ask.")


def _sheet(facts: Facts) -> Sheet:
    words, day = NOTE[facts.language], spelled(facts.day, facts.language)
    enclosed = ", ".join(thing for thing in facts.enclosures if thing)
    closing = (
        SignOff(facts.say("closing"), facts.teacher, facts.role, facts.signature),
        Paragraph(words.enclosed.format(things=enclosed) if enclosed else ""),
    )
    greeting, title = facts.say("greeting") if facts.helper else "", facts.say("title")
    return Sheet(
        title=title,
        head=(facts.letterhead, Paragraph(day, side="right", before=0.9)),
        flow=(Paragraph(greeting), *(Paragraph(text, before=0.75) for text in facts.body), *closing),
        flow_gap=3,
        together=len(closing),
        looks=LOOKS,
        running=f"{title}, {day}",
        page_words=words.page,
    )
