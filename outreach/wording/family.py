"""The fixed words of letters home and of the slip to send back, in English and Spanish.

The Spanish is written here, plainly and as families in the US use it; no native speaker has read it yet.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, fields

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part


@dataclass(frozen=True)
class SlipWords:
    """What is printed on the slip, in the order in which a translator supplies it, one line each."""

    heading: str
    only_if: str
    name: str
    room: str
    best_way: str
    call: str
    text: str
    email: str
    number: str
    language: str
    can_help: str
    at_school: str
    from_home: str
    show_day: str
    when: str
    how_often: str
    skills: str
    rules: str
    return_by: str


@dataclass(frozen=True)
class LetterWords:
    """Labels and sentences of one language; a pattern's names are what it is filled with."""

    title: str
    greeting: str
    provided: str
    nothing_to_send: str
    no_one_knows: str
    if_you_have: str
    if_nothing: str
    cannot_use: str
    only_clean: str
    where: str
    when: str
    from_until: str
    from_on: str
    until_on: str
    thanks: str
    draft: str
    page: str
    slip: SlipWords

    @property
    def promise(self) -> str:
        """What every letter says, whatever else stands in it."""
        return f"{self.provided} {self.nothing_to_send} {self.no_one_knows}"


ENGLISH = LetterWords(
    title="Things from home for the art room",
    greeting="Dear families,",
    provided="Everything your child needs for art is provided.",
    nothing_to_send="You do not have to send anything.",
    no_one_knows="No one will know who did.",
    if_you_have="If you have any of these at home to spare, we can use them:",
    if_nothing="We do not need anything from home right now.",
    cannot_use="What we cannot use",
    only_clean="Please send only clean, empty things. Nothing that held nuts, medicine or cleaners.",
    where="Where",
    when="When",
    from_until="from {first} to {last}",
    from_on="from {first}",
    until_on="until {last}",
    thanks="Thank you for reading this.",
    draft="DRAFT",
    page="page {page} of {pages}",
    slip=SlipWords(
        heading="Would you like to help in art?",
        only_if="Only if you want to. Small jobs, at school or at home: cut paper, sort, sew, hang a show.",
        name="Your name",
        room="Your child’s class or room",
        best_way="Best way to reach you",
        call="call",
        text="text",
        email="e-mail",
        number="Phone or e-mail",
        language="Best language for you",
        can_help="I can help",
        at_school="at school",
        from_home="from home",
        show_day="on show day",
        when="Days and times",
        how_often="How often",
        skills="What I like to do",
        rules="I understand the office’s sign-in rules.",
        return_by="Cut off, and send back by {day}.",
    ),
)
SPANISH = LetterWords(
    title="Cosas de casa para la clase de arte",
    greeting="Queridas familias:",
    provided="La escuela da todo lo que su hijo o hija necesita para arte.",
    nothing_to_send="Usted no tiene que enviar nada.",
    no_one_knows="Nadie sabrá quién envió algo.",
    if_you_have="Si en casa le sobra alguna de estas cosas, nos sirve:",
    if_nothing="Por ahora no necesitamos nada de casa.",
    cannot_use="Lo que no podemos usar",
    only_clean="Por favor, solo cosas limpias y vacías. Nada que tuvo nueces, medicina o productos de limpieza.",
    where="Dónde",
    when="Cuándo",
    from_until="del {first} al {last}",
    from_on="desde el {first}",
    until_on="hasta el {last}",
    thanks="Gracias por leer esta carta.",
    draft="BORRADOR",
    page="página {page} de {pages}",
    slip=SlipWords(
        heading="¿Le gustaría ayudar en la clase de arte?",
        only_if="Solo si usted quiere. Tareas pequeñas, en la escuela o en casa: cortar, coser, colgar obras.",
        name="Su nombre",
        room="Clase o salón de su hijo o hija",
        best_way="Cómo prefiere que le avisemos",
        call="llamada",
        text="mensaje",
        email="correo",
        number="Teléfono o correo",
        language="Idioma que prefiere",
        can_help="Puedo ayudar",
        at_school="en la escuela",
        from_home="desde casa",
        show_day="el día de la muestra",
        when="Días y horas",
        how_often="Cada cuánto",
        skills="Lo que me gusta hacer",
        rules="Entiendo las reglas de la oficina para entrar a la escuela.",
        return_by="Corte y devuelva antes del {day}.",
    ),
)
WORDS = {"en": ENGLISH, "es": SPANISH}
NAME = "family-letter"
BLANKS = ("teacher", "school", "first day", "last day")
PARTS = (
    Part("title", _("Heading")),
    Part("greeting", _("Greeting")),
    Part("if_you_have", _("Before the list of things")),
    Part("if_nothing", _("Where nothing is needed from home")),
    Part("cannot_use", _("Label: what you cannot use")),
    Part("thanks", _("Last sentence")),
    Part("slip.heading", _("Heading of the slip")),
)
ALWAYS = ("provided", "nothing_to_send", "no_one_knows", "only_clean", "slip.only_if", "slip.rules")
"""What no words of anybody take out or change."""
SLIP_LINES = tuple(field.name for field in fields(SlipWords))

# What presses: it makes a duty, a target, a race or a reward of what is free.
_PRESSES = re.compile(
    r"\b(?:must|required?|mandatory|obligat\w+|have to (?:send|bring|give)|needs? to (?:send|bring|give)|"
    r"(?:each|every) (?:family|child|student) (?:should|will|brings?|sends?|gives?)|(?:we|is|are) expect\w*|goal|quota|"
    r"at least \d+|"
    r"prizes?|rewards?|raffle|extra credit|names? of (?:those|families)|"
    r"deben?|deberá\w*|obligatori\w+|requerid\w+|requisito|tienen? que (?:enviar|mandar|traer|dar)|"
    r"cada (?:familia|niño|niña|alumno|estudiante) (?:debe|trae|envía|manda)|meta|premios?|rifa|puntos extra)\b",
    re.IGNORECASE,
)
_NOT_PRESSING = re.compile(
    r"\b(?:not|never|no one|nobody|nothing is|none is) (?:\w+ )?(?:required?|have to)\b|"
    r"\b(?:do not|don['’]t) have to\b|"
    r"\bno tienen? que\b|"
    r"\bnot (?:be )?(?:expected|required)\b|\bno es (?:obligatorio|un requisito)\b",
    re.IGNORECASE,
)


def presses(text: str) -> str:
    """The first words that press a family, as they stand in the text; "" where nothing does."""
    found = _PRESSES.search(_NOT_PRESSING.sub("", text))
    return found.group() if found else ""


def other_slip(lines: str) -> SlipWords | None:
    """A slip in another language, from one line for each of its words; None where their number is not right."""
    kept = [line.strip() for line in lines.splitlines() if line.strip()]
    return SlipWords(**dict(zip(SLIP_LINES, kept, strict=True))) if len(kept) == len(SLIP_LINES) else None
