"""The words on sheets for helpers: job card, sign-in sheet, call sheet, the sheet for the night before."""

from __future__ import annotations

import re
from typing import NamedTuple

_SPANISH = re.compile(r"\b(spanish|espa[nñ]ol|castellano)\b", re.IGNORECASE)
JOBS = {
    "en": {
        "cutting": "cutting and trimming",
        "sorting": "sorting",
        "mounting": "mounting",
        "labelling": "labelling",
        "hanging": "hanging a show",
        "taking_down": "taking a show down",
        "photographing": "photographing work",
        "sewing": "sewing and kits at home",
        "carrying": "fetching and delivering",
        "other": "helping in the art room",
    },
    "es": {
        "cutting": "cortar y recortar",
        "sorting": "clasificar",
        "mounting": "montar trabajos",
        "labelling": "poner etiquetas",
        "hanging": "colgar una muestra",
        "taking_down": "desmontar una muestra",
        "photographing": "fotografiar trabajos",
        "sewing": "coser y preparar materiales en casa",
        "carrying": "recoger y llevar cosas",
        "other": "ayudar en la sala de arte",
    },
}


class CardWords(NamedTuple):
    sheet: str
    welcome: str
    welcome_alone: str
    sign_in: str
    room: str
    toilet: str
    exits: str
    call: str
    office: str
    allergies: str
    steps: str
    with_what: str
    where: str
    done: str
    care: str
    stop: str
    not_finished: str
    page: str


CARD = {
    "en": CardWords(
        sheet="Job card: {title}",
        welcome="Welcome to {school}!",
        welcome_alone="Welcome!",
        sign_in="Sign in",
        room="Art room",
        toilet="Toilet, water",
        exits="Exits",
        call="Call",
        office="At the office",
        allergies="Allergies",
        steps="What to do",
        with_what="With",
        where="Where it goes",
        done="Done means",
        care="Take care",
        stop="Stop {hour}",
        not_finished="It need not be finished. Thank you!",
        page="page {page} of {pages}",
    ),
    "es": CardWords(
        sheet="Tarjeta de trabajo: {title}",
        welcome="¡Le damos la bienvenida a {school}!",
        welcome_alone="¡Le damos la bienvenida!",
        sign_in="Registro",
        room="Sala de arte",
        toilet="Baño, agua",
        exits="Salidas",
        call="Llame a",
        office="En la oficina",
        allergies="Alergias",
        steps="Qué hacer",
        with_what="Con",
        where="Dónde va",
        done="Está listo si",
        care="Cuidado",
        stop="Termine {hour}",
        not_finished="No hace falta acabarlo. ¡Gracias!",
        page="página {page} de {pages}",
    ),
}


class SignInWords(NamedTuple):
    sheet: str
    rules: str
    columns: tuple[str, str, str, str]
    unexpected: str
    badge: str
    page: str


SIGN_IN = {
    "en": SignInWords(
        sheet="Helpers: sign in and out",
        rules="For the office. Please write the time you come and the time you leave.",
        columns=("Name", "In", "Out", "Signature"),
        unexpected="Also came",
        badge="Wear the badge. Stay where staff can see you; never alone with a child.",
        page="page {page} of {pages}",
    ),
    "es": SignInWords(
        sheet="Ayudantes: entrada y salida",
        rules="Para la oficina. Anote la hora de llegada y la hora de salida.",
        columns=("Nombre", "Entrada", "Salida", "Firma"),
        unexpected="También vinieron",
        badge="Lleve la identificación. Quédese donde el personal le vea; nunca a solas con un niño.",
        page="página {page} de {pages}",
    ),
}


class CallWords(NamedTuple):
    sheet: str
    private: str
    needed: str
    columns: tuple[str, str, str, str]
    said_yes: str
    said_yes_then: str
    asked: str
    answers: tuple[str, str, str]
    ways: dict[str, str]
    nobody: str
    not_cleared: str
    cleared_until: str
    page: str


CALL = {
    "en": CallWords(
        sheet="Who to call",
        private="For the teacher only. Not for the wall, the office or other helpers; shred it afterwards.",
        needed="{yes} of {needed} said yes.",
        columns=("Name", "Phone, e-mail", "Best way", "Answer"),
        said_yes="Said yes: remind them",
        said_yes_then="Said yes",
        asked="Asked, no answer yet",
        answers=("yes", "no", "call again"),
        ways={"phone": "call", "text": "text message", "email": "e-mail", "note": "a note home"},
        nobody="Nobody is asked yet.",
        not_cleared="not cleared: ask the office first",
        cleared_until="cleared only until {day}: ask the office first",
        page="page {page} of {pages}",
    ),
    "es": CallWords(
        sheet="A quién llamar",
        private="Solo para la maestra. No se cuelga ni se entrega; se destruye después.",
        needed="{yes} de {needed} dijeron que sí.",
        columns=("Nombre", "Teléfono, correo", "Cómo", "¿Viene?"),
        said_yes="Dijeron que sí: recordar",
        said_yes_then="Dijeron que sí",
        asked="Falta su respuesta",
        answers=("sí", "no", "después"),
        ways={"phone": "llamar", "text": "mensaje", "email": "correo", "note": "nota a casa"},
        nobody="Todavía no se preguntó a nadie.",
        not_cleared="sin autorización: preguntar antes en la oficina",
        cleared_until="autorización solo hasta el {day}: preguntar antes en la oficina",
        page="página {page} de {pages}",
    ),
}


class NightWords(NamedTuple):
    sheet: str
    private: str
    opens: str
    bring: str
    always_bring: tuple[str, ...]
    comes: str
    columns: tuple[str, str, str]
    nobody_yet: str
    order: str
    phones: str
    panels: str
    on_panels: tuple[str, str]
    shared: str
    page: str


NIGHT = {
    "en": NightWords(
        sheet="The night before: {title}",
        private="For the teacher only: it holds phone numbers.",
        opens="Opens",
        bring="Bring",
        always_bring=(
            "job cards and sign-in sheet",
            "plan of the panels",
            "spare labels, pencil",
            "the sealed thank-you",
        ),
        comes="Who comes when",
        columns=("When", "What", "Who"),
        nobody_yet="nobody said yes yet",
        order="Order of work",
        phones="Phone numbers",
        panels="Panels",
        on_panels=("{works} works, 1 panel", "{works} works, {panels} panels"),
        shared="In all {works} works; {panels} panels with {on} on each where classes share.",
        page="page {page} of {pages}",
    ),
    "es": NightWords(
        sheet="La noche anterior: {title}",
        private="Solo para la maestra: contiene teléfonos.",
        opens="Se abre",
        bring="Llevar",
        always_bring=(
            "tarjetas y hoja de entrada",
            "plano de los paneles",
            "etiquetas de más, lápiz",
            "el agradecimiento sellado",
        ),
        comes="Quién viene y cuándo",
        columns=("Cuándo", "Qué", "Quién"),
        nobody_yet="nadie dijo que sí todavía",
        order="Orden del trabajo",
        phones="Teléfonos",
        panels="Paneles",
        on_panels=("{works} trabajos, 1 panel", "{works} trabajos, {panels} paneles"),
        shared="En total {works} trabajos; {panels} paneles con {on} en cada uno si las clases comparten.",
        page="página {page} de {pages}",
    ),
}


SHOWS = {
    "en": {"hanging": "hanging “{title}”", "taking_down": "taking down “{title}”"},
    "es": {"hanging": "colgar «{title}»", "taking_down": "desmontar «{title}»"},
}


def show_words(job: str, title: str, language: str) -> str:
    """Putting a show up or taking it down, by its title.

    >>> show_words("hanging", "Winter lights", "en")
    'hanging “Winter lights”'
    """
    return SHOWS[language][job].format(title=title)


def job_words(job: str, language: str) -> str:
    return JOBS[language].get(job) or JOBS[language]["other"]


def speaks_spanish(language: str) -> bool:
    """Whether the language that a helper named is Spanish.

    >>> speaks_spanish("Spanish, some English"), speaks_spanish("Español"), speaks_spanish("Portuguese")
    (True, True, False)
    """
    return _SPANISH.search(language) is not None
