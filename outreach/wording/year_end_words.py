"""What a note at the year's end is put together from, in each language."""

from __future__ import annotations

from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.gratitude_words import LETTER
from outreach.wording.own_words import Part


class YearEndWords(NamedTuple):
    """The first four greet; `ends` and `over` open the note while the year lasts and behind it, with or without what
    became of something.
    """

    to_both: str
    to_business: str
    to_person: str
    to_nobody: str
    ends: str
    ends_became: str
    over: str
    over_became: str
    gave: str
    lent: str
    also_lent: str
    became: str
    reached: str
    taught: str
    no_ask: str
    closing: str
    title: str
    title_alone: str
    money: str
    grant: str
    more: str
    these: str
    enclosed: str
    running: str
    page: str


def _greetings(language: str) -> dict[str, str]:
    return {name: getattr(LETTER[language], name) for name in ("to_both", "to_business", "to_person", "to_nobody")}


NOTE = {
    "en": YearEndWords(
        **_greetings("en"),
        ends="As our school year draws to its end, I want to thank you once more.",
        ends_became="As our school year draws to its end, I want to tell you what you made possible.",
        over="Now that the school year is over, I want to thank you once more.",
        over_became="Now that the school year is over, I want to tell you what you made possible.",
        gave="In the school year [year] you gave our students [what came].",
        lent="In the school year [year] you lent our students [what was lent].",
        also_lent="You also lent us [what was lent].",
        became="Here is what came of it: [what it became]",
        reached="It reached [children].",
        taught="In all, [all children] made art with us this year.",
        no_ask="This note wants nothing from you. It only says thank you, from everybody in our art room.",
        closing="With warm thanks,",
        title="Year-end note to {partner}",
        title_alone="Year-end note",
        money="a gift of money",
        grant="a grant for “{title}”",
        more="{count} more things",
        these="the things listed below",
        enclosed="Enclosed: {things}",
        running="To {partner}, {day}",
        page="page {page} of {pages}",
    ),
    "es": YearEndWords(
        **_greetings("es"),
        ends="Ahora que termina nuestro año escolar, quiero [agradecerle] una vez más.",
        ends_became="Ahora que termina nuestro año escolar, quiero [contarle] lo que [hizo] posible.",
        over="Ahora que terminó el año escolar, quiero [agradecerle] una vez más.",
        over_became="Ahora que terminó el año escolar, quiero [contarle] lo que [hizo] posible.",
        gave="En el año escolar [year], [usted] [dio] a nuestros estudiantes [what came].",
        lent="En el año escolar [year], [usted] [prestó] a nuestros estudiantes [what was lent].",
        also_lent="También nos [prestó] [what was lent].",
        became="Esto es lo que nació de ahí: [what it became]",
        reached="Llegó a [children].",
        taught="En total, [all children] hicieron arte con nosotros este año.",
        no_ask="Esta nota no pide nada. Solo da las gracias, de parte de todos en nuestra sala de arte.",
        closing="Con mucha gratitud,",
        title="Nota de fin de año para {partner}",
        title_alone="Nota de fin de año",
        money="una donación en dinero",
        grant="una subvención para «{title}»",
        more="{count} cosas más",
        these="las cosas de la lista de abajo",
        enclosed="Se adjunta: {things}",
        running="A {partner}, {day}",
        page="página {page} de {pages}",
    ),
}

NAME = "year-end-note"
BLANKS = ("giver", "person", "teacher", "school", "year")
PARTS = (
    Part("to_both", _("Greeting, to a place where you know somebody")),
    Part("to_business", _("Greeting, to a place where you know nobody")),
    Part("to_person", _("Greeting, to a person alone")),
    Part("to_nobody", _("Greeting, to nobody by name")),
    Part("ends", _("Opening")),
    Part("ends_became", _("Opening, where it became something")),
    Part("over", _("Opening, when the year is over")),
    Part("over_became", _("Opening, when the year is over and it became something")),
    Part("gave", _("What came"), ("what came",)),
    Part("lent", _("What was lent, where nothing was given"), ("what was lent",)),
    Part("also_lent", _("What was lent besides"), ("what was lent",)),
    Part("became", _("What it became"), ("what it became",)),
    Part("reached", _("How many children it reached"), ("children",), may_go=True),
    Part("taught", _("How many children made art"), ("all children",), may_go=True),
    Part("no_ask", _("Last paragraph"), may_go=True),
    Part("closing", _("Above your name")),
)
