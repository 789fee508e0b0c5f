"""The words of a short note to somebody who said no, or not this year: thanks for considering it, and nothing else."""

from __future__ import annotations

from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part, Voice


class NoteWords(NamedTuple):
    first: str
    second: str
    third: str


NOTE = {
    "en": NoteWords(
        first="Thank you for taking the time to hear about our art program and for giving it your thought.",
        second="We know how many people ask you for something. Your kind and clear answer is a help to us too.",
        third="You are always welcome to come and see what the students make.",
    ),
    "es": NoteWords(
        first="Gracias por tomarse el tiempo de escuchar sobre nuestro programa de arte y por considerarlo.",
        second="Sabemos cuántas personas le piden algo. Su respuesta amable y clara también nos ayuda.",
        third="Siempre será una alegría recibir su visita para ver lo que hacen los estudiantes.",
    ),
}
NAME = "thanks-for-considering"
BLANKS = ("giver", "person", "teacher", "school", "day")
PARTS = (
    Part("first", _("First paragraph")),
    Part("second", _("Second paragraph"), may_go=True),
    Part("third", _("Last paragraph"), may_go=True),
)


def paragraphs(say: Voice) -> tuple[str, ...]:
    return tuple(filter(None, (say("first"), say("second"), say("third"))))
