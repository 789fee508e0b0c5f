"""The fixed words of the leave-behind sheet, in the language of the shop that keeps it."""

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import sentence, students
from outreach.wording.dates import spelled, with_weekday
from outreach.wording.own_words import Part, Voice


@dataclass(frozen=True)
class SheetWords:
    """Labels and patterns of one language; a pattern's names are what it is filled with."""

    request_to: str
    request_from: str
    attention: str
    serves_both: str
    serves_count: str
    serves_grades: str
    asking: str
    smaller: str
    becomes: str
    children: str
    needed: str
    collecting: str
    collect: str
    offer: str
    offered: str
    last_year: str
    back: str
    approved: str
    approved_on: str
    contact: str
    reply_to: str
    reply_from: str
    your_name: str
    yes: str
    maybe: str
    not_this_year: str
    never: str
    name_you: str
    name_yes: str
    name_no: str
    draft: str
    page: str


SHEET = {
    "en": SheetWords(
        request_to="A request to [partner]",
        request_from="A request from our art room",
        attention="For [person]",
        serves_both="Our art program teaches [children], [grades].",
        serves_count="Our art program teaches [children].",
        serves_grades="Our art program teaches [grades].",
        asking="We are asking for",
        smaller="A smaller gift also helps: [something smaller]",
        becomes="What it becomes",
        children="Who it is for",
        needed="Needed by",
        collecting="Collecting",
        collect="We will come and collect.",
        offer="In return",
        offered="A thank-you letter, and a picture of the finished work (no faces).",
        last_year="Last year",
        back="I will be back",
        approved="Approved by {who}.",
        approved_on="Approved by {who}, on {day}.",
        contact="School contact",
        reply_to="Reply to {teacher}",
        reply_from="From",
        your_name="Your name",
        yes="Yes",
        maybe="Maybe, call me on",
        not_this_year="Not this year",
        never="Please don’t ask again",
        name_you="May we name you?",
        name_yes="Yes",
        name_no="No",
        draft="DRAFT",
        page="page {page} of {pages}",
    ),
    "es": SheetWords(
        request_to="Una petición para [partner]",
        request_from="Una petición de nuestra clase de arte",
        attention="A la atención de [person]",
        serves_both="Nuestro programa de arte enseña a [children], [grades].",
        serves_count="Nuestro programa de arte enseña a [children].",
        serves_grades="Nuestro programa de arte enseña a estos grados: [grades].",
        asking="Les pedimos",
        smaller="Algo más pequeño también ayuda: [something smaller]",
        becomes="En qué se convierte",
        children="Para quién es",
        needed="Para cuándo",
        collecting="Entrega",
        collect="Nosotros pasamos a recogerlo.",
        offer="A cambio",
        offered="Una carta de agradecimiento y una foto del trabajo terminado (sin rostros).",
        last_year="El año pasado",
        back="Volveré",
        approved="Aprobado por {who}.",
        approved_on="Aprobado por {who}, el {day}.",
        contact="Contacto de la escuela",
        reply_to="Respuesta para {teacher}",
        reply_from="De",
        your_name="Su nombre",
        yes="Sí",
        maybe="Tal vez; llámenme el",
        not_this_year="Este año no",
        never="Por favor, no vuelvan a pedir",
        name_you="¿Podemos mencionarles?",
        name_yes="Sí",
        name_no="No",
        draft="BORRADOR",
        page="página {page} de {pages}",
    ),
}


NAME = "leave-behind"
BLANKS = ("partner", "person", "teacher", "school", "children", "grades", "what we ask", "day")
PARTS = (
    Part("request_to", _("Heading, to a place by name")),
    Part("request_from", _("Heading without a name")),
    Part("attention", _("For whom there"), may_go=True),
    Part("serves_both", _("The art program")),
    Part("serves_count", _("The art program, where grades are not known")),
    Part("serves_grades", _("The art program, where the number of students is not known")),
    Part("asking", _("Before what you ask for")),
    Part("smaller", _("The smaller alternative"), ("something smaller",)),
    Part("becomes", _("Label: what it becomes")),
    Part("needed", _("Label: by when")),
    Part("collect", _("That you collect it"), may_go=True),
    Part("offer", _("Label: in return")),
    Part("offered", _("What you offer back, as long as you type nothing else")),
    Part("last_year", _("Label: last year")),
    Part("back", _("Label: the day you are back")),
)


def program(say: Voice, count: int | None, grades: str) -> str:
    """One sentence on the program; what is not known leaves the sentence, and nothing known leaves no sentence."""
    if count and grades:
        return say("serves_both")
    if count:
        return say("serves_count")
    return say("serves_grades") if grades else ""


def for_whom(count: int | None, ready: date | None, language: str) -> str:
    """For how many children, and by when it will be made."""
    if language == "es":
        who = f"Para {students(count, language)}" if count else ""
        when = f"a más tardar el {spelled(ready, language)}" if ready else ""
    else:
        who = f"For {students(count, language)}" if count else ""
        when = f"by {spelled(ready, language)}" if ready else ""
    text = ", ".join(part for part in (who, when) if part)
    return f"{text[0].upper()}{text[1:]}." if text else ""


def becoming(say: Voice, what: str, count: int | None, ready: date | None, language: str) -> tuple[str, str]:
    """What it becomes, for whom and by when; where nobody knows what, only for whom."""
    if not what:
        return SHEET[language].children, sentence(students(count, language) if count else "")
    return say("becomes"), " ".join(part for part in (sentence(what), for_whom(count, ready, language)) if part)


def needed(say: Voice, day: date | None, collect: bool) -> tuple[str, str, str]:
    """Label of the row that says by when, the day, and that we collect; all empty when neither is known."""
    taken = say("collect") if collect else ""
    if day:
        return say("needed"), day_alone(day, say.language), taken
    return (SHEET[say.language].collecting if taken else "", "", taken)


def day_alone(day: date, language: str) -> str:
    """A day that stands as a sentence of its own."""
    text = with_weekday(day, language)
    return f"{text[0].upper()}{text[1:]}."
