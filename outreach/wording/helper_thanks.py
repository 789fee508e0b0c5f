"""The words of a note to a helper: hours and what for, never what they were worth."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import joined
from outreach.wording.hours import hours_given
from outreach.wording.own_words import Part, Voice


class NoteWords(NamedTuple):
    title: str
    greeting: str
    hours: str
    no_hours: str
    jobs: str
    seen: str
    last: str
    closing: str
    enclosed: str
    page: str


NOTE = {
    "en": NoteWords(
        title="Thank you, [helper]",
        greeting="Dear [helper],",
        hours="Thank you for the [hours] you gave our art room this school year.",
        no_hours="Thank you for helping in our art room this school year.",
        jobs="You helped with [jobs].",
        seen="Work like yours is what carries children’s art from the table to the wall, where others see it.",
        last="It was good to have you with us.",
        closing="With thanks,",
        enclosed="Enclosed: {things}",
        page="page {page} of {pages}",
    ),
    "es": NoteWords(
        title="Gracias, [helper]",
        greeting="Hola, [helper]:",
        hours="Gracias por [hours] de su tiempo para nuestra sala de arte en este año escolar.",
        no_hours="Gracias por ayudar en nuestra sala de arte en este año escolar.",
        jobs="Nos ayudó con esto: [jobs].",
        seen="Un trabajo como el suyo lleva el arte de los niños de la mesa a la pared, donde otros lo ven.",
        last="Fue un gusto tenerle con nosotros.",
        closing="Con gratitud,",
        enclosed="Se adjunta: {things}",
        page="página {page} de {pages}",
    ),
}


NAME = "helper-note"
BLANKS = ("helper", "hours", "jobs", "teacher", "school")
PARTS = (
    Part("title", _("Heading of the file")),
    Part("greeting", _("Greeting")),
    Part("hours", _("Thanks for the hours")),
    Part("no_hours", _("Thanks where no hours are written down")),
    Part("jobs", _("What was helped with"), may_go=True),
    Part("seen", _("What it was good for"), may_go=True),
    Part("last", _("Last sentence"), may_go=True),
    Part("closing", _("Above your name")),
)


def paragraphs(say: Voice, minutes: int, jobs: Sequence[str]) -> tuple[str, ...]:
    first = say("hours" if minutes > 0 else "no_hours")
    helped = say("jobs") if jobs else ""
    told = (" ".join(part for part in (first, helped) if part), say("seen"), say("last"))
    return tuple(part for part in told if part)


def said_of(helper: str, minutes: int, jobs: Sequence[str], language: str) -> dict[str, str]:
    """What fills the blanks that are the helper's own."""
    return {"helper": helper, "hours": hours_given(minutes, language), "jobs": listed(jobs, language)}


def listed(jobs: Sequence[str], language: str) -> str:
    """Jobs that hold an "and" themselves are parted by semicolons."""
    inside = " y " if language == "es" else " and "
    return "; ".join(jobs) if any(inside in job for job in jobs) else joined(jobs, language)
