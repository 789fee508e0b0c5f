"""The words of the one notice of thanks to all families; the Spanish is written here, see `family`."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part


@dataclass(frozen=True)
class ThanksWords:
    title: str
    to_all: str
    on_one_day: str
    came: str
    nothing: str
    became: str
    some: str
    money: str
    whoever: str
    draft: str
    page: str


THANKS = {
    "en": ThanksWords(
        title="Thank you to all our families",
        to_all="From [first day] to [last day] these things came to the art room from homes:",
        on_one_day="On [first day] these things came to the art room from homes:",
        came="{count} {item}",
        nothing="Thank you for reading our letters and for asking your child about art.",
        became="What it became",
        some="{item}",
        money="money for the art room",
        whoever="We do not know who sent what. We do not need to know. We thank every family.",
        draft="DRAFT",
        page="page {page} of {pages}",
    ),
    "es": ThanksWords(
        title="Gracias a todas nuestras familias",
        to_all="Del [first day] al [last day] llegaron de las casas estas cosas para la clase de arte:",
        on_one_day="El [first day] llegaron de las casas estas cosas para la clase de arte:",
        came="{item}: {count}",
        nothing="Gracias por leer nuestras cartas y por preguntarle a su hijo o hija por la clase de arte.",
        became="En qué se convirtió",
        some="{item}",
        money="dinero para la clase de arte",
        whoever="No sabemos quién envió qué. No hace falta saberlo. Damos las gracias a cada familia.",
        draft="BORRADOR",
        page="página {page} de {pages}",
    ),
}
NAME = "family-thanks"
BLANKS = ("teacher", "school", "first day", "last day")
PARTS = (
    Part("title", _("Heading")),
    Part("to_all", _("Before the list of what came")),
    Part("on_one_day", _("Before the list, where it came on one day")),
    Part("nothing", _("Where nothing is written down")),
    Part("became", _("Label: what it became")),
)
ALWAYS = ("whoever",)
