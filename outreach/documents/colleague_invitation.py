"""A letter that invites a colleague to share a project: what it is, who would do what, and that a no is fine."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.utils.translation import gettext_lazy as _

from outreach.documents.joint_plan import days
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
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from outreach.wording.project import INVITATION, NAME, for_whom, invitation, meant_for

SLUG = "colleague-invitation"
TITLE = _("Invitation to a colleague")
ABOUT = "project"

LOOKS = (Look(14, 1.2), Look(13, 1.15), *LETTER_LOOKS)


@dataclass(frozen=True)
class Facts:
    """Everything the letter says. `ours` and `theirs` are (brings or teaches, what).

    `text` is the body as the teacher edited it; while it is empty the body is worded from the record.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    title: str
    teacher: str
    role: str = ""
    colleague: str = ""
    about: str = ""
    subject: str = ""
    classes: str = ""
    children: int | None = None
    begins_on: date | None = None
    ends_on: date | None = None
    shown_on: date | None = None
    ours: tuple[tuple[str, str], ...] = ()
    theirs: tuple[tuple[str, str], ...] = ()
    text: tuple[str, ...] = ()
    enclosures: tuple[str, ...] = ()
    wording: OwnWords = HOUSE
    signature: Picture | None = None

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        return self.text or invitation(
            self.say,
            about=self.about,
            seen=spelled(self.shown_on, self.language) if self.shown_on else "",
            ours=self.ours,
            theirs=self.theirs,
        )

    @cached_property
    def say(self) -> Voice:
        """The words of the letter, with what fills their blanks."""
        who = for_whom(self.classes, self.children, self.language)
        values = {
            "colleague": self.colleague,
            "title": self.title,
            "subject": self.subject,
            "for whom": meant_for(who, days(self.begins_on, self.ends_on, self.language), self.language),
            "teacher": self.teacher,
            "school": self.letterhead.school,
        }
        return Voice(NAME, self.language, INVITATION[self.language], self.wording, values)


def _book(facts: Facts) -> Book:
    return Book(paper(facts.paper), title=facts.say("title"), author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the letter lacks, in the order in which it reads."""
    clean = on_paper(facts)
    long = len(measured(_sheet(clean), paper(facts.paper)).pages) > 1
    return (
        *found(
            unless(clean.colleague, "no-colleague", _("No colleague is named in the project yet."), "colleague"),
            unless(clean.about, "no-about", _("What do the children make and learn?"), "about"),
            unless(clean.theirs, "no-theirs", _("What do you hope your colleague would bring or teach?"), ""),
            unless(clean.classes, "no-classes", _("No class is chosen yet."), ""),
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            when(long, "second-page", _("It goes on to a second page."), "text"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, day = INVITATION[facts.language], spelled(facts.day, facts.language)
    title = facts.say("title")
    enclosed = ", ".join(thing for thing in facts.enclosures if thing)
    closing = (
        SignOff(facts.say("closing"), facts.teacher, facts.role, facts.signature),
        Paragraph(words.enclosed.format(things=enclosed) if enclosed else ""),
    )
    greeting = facts.say("greeting" if facts.colleague else "no_name")
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
