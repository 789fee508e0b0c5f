"""The words of the one notice of thanks to all families; the Spanish is written here, see `family`."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class ThanksWords:
    title: str
    to_all: str
    came: str
    nothing: str
    became: str
    some: str
    whoever: str
    draft: str
    page: str


THANKS = {
    "en": ThanksWords(
        title="Thank you to all our families",
        to_all="From {first} to {last} these things came to the art room from homes:",
        came="{count} {item}",
        nothing="Thank you for reading our letters and for asking your child about art.",
        became="What it became",
        some="{item}",
        whoever="We do not know who sent what. We do not need to know. We thank every family.",
        draft="DRAFT",
        page="page {page} of {pages}",
    ),
    "es": ThanksWords(
        title="Gracias a todas nuestras familias",
        to_all="Del {first} al {last} llegaron de las casas estas cosas para la clase de arte:",
        came="{item}: {count}",
        nothing="Gracias por leer nuestras cartas y por preguntarle a su hijo o hija por la clase de arte.",
        became="En qué se convirtió",
        some="{item}",
        whoever="No sabemos quién envió qué. No hace falta saberlo. Damos las gracias a cada familia.",
        draft="BORRADOR",
        page="página {page} de {pages}",
    ),
}
