"""The job card of a session, one page in 14 points: the welcome of the school, what to do, and until when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Framed,
    Heading,
    Look,
    Numbered,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Stack,
    bold,
    draw_sheet,
    measured,
    on_paper,
    paper,
)
from outreach.wording.helping import CARD
from outreach.wording.hours import at_hour, when_words

SLUG = "job-card"
TITLE = _("Job card")
ABOUT = "session"

MOST_STEPS = 7
WANTED_SIZE = 14
LOOKS = (Look(14, 1.25), Look(14, 1.0), Look(14, 0.75), Look(14, 0.5, lead=1.25), *SHEET_LOOKS[3:])


@dataclass(frozen=True)
class Facts:
    """Everything the card says; what is empty vanishes. `ends` is when the helper may stop."""

    language: str
    paper: str
    title: str
    day: date
    starts: time
    ends: time
    school: str = ""
    place: str = ""
    sign_in: str = ""
    room: str = ""
    toilet: str = ""
    exits: str = ""
    whom_to_call: str = ""
    at_office: str = ""
    allergies: str = ""
    steps: tuple[str, ...] = ()
    with_what: str = ""
    where_it_goes: str = ""
    looks_done: str = ""
    cautions: tuple[str, ...] = ()
    teacher: str = ""


def _book(facts: Facts) -> Book:
    title = CARD[facts.language].sheet.format(title=facts.title)
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the card lacks; without the room or whom to call a helper stands before a locked door."""
    clean = on_paper(facts)
    arrangement = measured(_sheet(clean), paper(facts.paper))
    too_many = len(clean.steps) > MOST_STEPS
    return (
        *found(
            unless(clean.steps, "no-steps", _("No step says what to do: choose or write a card."), "steps"),
            when(too_many, "many-steps", _("More than seven steps. Make it two cards."), "steps"),
            unless(clean.room, "no-room", _("Where is the room?"), "room"),
            unless(clean.toilet, "no-toilet", _("Where are toilet and water?"), "toilet"),
            unless(clean.exits, "no-exits", _("Where are the exits?"), "exits"),
            unless(clean.whom_to_call, "no-call", _("Whom may the helper call?"), "whom_to_call"),
            unless(
                clean.at_office, "no-office", _("What waits at the office when nobody can greet them?"), "at_office"
            ),
            unless(clean.allergies, "no-allergies", _("Nothing is said about allergies."), "allergies"),
            unless(clean.looks_done, "no-done", _("What does done look like?"), "looks_done"),
            when(len(arrangement.pages) > 1, "second-page", _("It runs over one page. Shorten the steps."), "steps"),
            when(arrangement.look.size < WANTED_SIZE, "small-type", _("So much text needs small type."), "steps"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = CARD[facts.language], facts.language
    time_words = when_words(facts.day, facts.starts, facts.ends, language)
    return Sheet(
        title=words.sheet.format(title=facts.title),
        flow=(
            Heading(facts.title, before=0, size=28),
            Paragraph(" · ".join(part for part in (time_words, facts.place) if part), before=0.1),
            _welcome(facts),
            *_steps(facts),
            _stop(facts),
        ),
        looks=LOOKS,
        running=f"{facts.title}, {time_words}",
        page_words=words.page,
    )


def _welcome(facts: Facts) -> Block:
    words = CARD[facts.language]
    rows = (
        (words.sign_in, facts.sign_in),
        (words.room, facts.room),
        (words.toilet, facts.toilet),
        (words.exits, facts.exits),
        (words.call, facts.whom_to_call),
        (words.office, facts.at_office),
        (words.allergies, facts.allergies),
    )
    if not any(said for _label, said in rows):
        return Framed(())
    greeting = words.welcome.format(school=facts.school) if facts.school else words.welcome_alone
    return Framed((Paragraph((bold(greeting),), step=1, heads=True), Pairs(rows, before=0.3, gap=0.1)), before=0.7)


def _steps(facts: Facts) -> tuple[Block, ...]:
    words = CARD[facts.language]
    heading = Paragraph((bold(words.steps),) if facts.steps else "", step=2, heads=True)
    care = (
        Stack((Paragraph((bold(words.care),), heads=True), Bullets(facts.cautions, before=0.15)))
        if facts.cautions
        else Stack(())
    )
    return (
        Stack((heading, Numbered(facts.steps, before=0.25)), before=0.9),
        Pairs(
            (
                (words.with_what, facts.with_what),
                (words.where, facts.where_it_goes),
                (words.done, facts.looks_done),
            ),
            before=0.8,
            gap=0.2,
        ),
        care,
    )


def _stop(facts: Facts) -> Block:
    words = CARD[facts.language]
    stop = words.stop.format(hour=at_hour(facts.ends, facts.language))
    return Framed((Paragraph((bold(stop),), step=4), Paragraph(words.not_finished, before=0)), before=0.8)
