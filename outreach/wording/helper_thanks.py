"""The words of a note to a helper: hours and what for, never what they were worth."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from outreach.wording.counts import joined
from outreach.wording.hours import hours_given


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
        title="Thank you, {helper}",
        greeting="Dear {helper},",
        hours="Thank you for the {hours} you gave our art room this school year.",
        no_hours="Thank you for helping in our art room this school year.",
        jobs="You helped with {jobs}.",
        seen="Work like yours is what carries children’s art from the table to the wall, where others see it.",
        last="It was good to have you with us.",
        closing="With thanks,",
        enclosed="Enclosed: {things}",
        page="page {page} of {pages}",
    ),
    "es": NoteWords(
        title="Gracias, {helper}",
        greeting="Hola, {helper}:",
        hours="Gracias por {hours} de su tiempo para nuestra sala de arte en este año escolar.",
        no_hours="Gracias por ayudar en nuestra sala de arte en este año escolar.",
        jobs="Nos ayudó con esto: {jobs}.",
        seen="Un trabajo como el suyo lleva el arte de los niños de la mesa a la pared, donde otros lo ven.",
        last="Fue un gusto tenerle con nosotros.",
        closing="Con gratitud,",
        enclosed="Se adjunta: {things}",
        page="página {page} de {pages}",
    ),
}


def paragraphs(minutes: int, jobs: Sequence[str], language: str) -> tuple[str, ...]:
    words = NOTE[language]
    hours = hours_given(minutes, language)
    first = words.hours.format(hours=hours) if hours else words.no_hours
    helped = words.jobs.format(jobs=_listed(jobs, language)) if jobs else ""
    return (" ".join(part for part in (first, helped) if part), words.seen, words.last)


def _listed(jobs: Sequence[str], language: str) -> str:
    """Jobs that hold an "and" themselves are parted by semicolons."""
    inside = " y " if language == "es" else " and "
    return "; ".join(jobs) if any(inside in job for job in jobs) else joined(jobs, language)
