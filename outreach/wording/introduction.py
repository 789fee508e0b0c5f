"""The letter of who takes over: the new name, thanks for what came, and that promises stay. It asks for nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import Item, joined, number, sentence, with_kind
from outreach.wording.dates import spelled
from outreach.wording.own_words import HOUSE, OwnWords, Part, Voice, house_words

MOST_TOLD = 5


@dataclass(frozen=True)
class Stands:
    """Something one side promised and has not done; `by` only where that day is not over."""

    item: Item
    by: date | None = None


@dataclass(frozen=True)
class Introduction:
    """What the letter is worded from. `form` is that of what came last: goods, money, trade or another; empty where
    nothing did. `business`: the name that is spoken to is not a person's alone.
    """

    language: str
    teacher: str
    school: str
    former: str = ""
    partner: str = ""
    contact: str = ""
    form: str = ""
    came: tuple[Item, ...] = ()
    came_on: date | None = None
    became: str = ""
    theirs: tuple[Stands, ...] = ()
    ours: tuple[Stands, ...] = ()
    phone: str = ""
    email: str = ""
    wording: OwnWords = HOUSE

    @cached_property
    def say(self) -> Voice:
        """The words of the letter, with what fills their blanks; Spanish verbs follow whom the letter speaks to."""
        plural = bool(self.partner and self.partner != self.contact)
        spoken = {pair[0]: pair[plural] for pair in SPOKEN_TO} if self.language == "es" else {}
        values = {
            **spoken,
            "partner": self.partner or self.contact,
            "person": self.contact,
            "teacher": self.teacher,
            "school": self.school,
        }
        return Voice(NAME, self.language, INTRODUCTION[self.language], self.wording, values)


class IntroductionWords(NamedTuple):
    title: str
    title_alone: str
    to_both: str
    to_business: str
    to_person: str
    to_nobody: str
    follows: str
    begins: str
    record: str
    goods: str
    money: str
    trade: str
    help: str
    more: str
    stays: str
    theirs: str
    ours: str
    by: str
    free: str
    reach: str
    meet: str
    closing: str
    enclosed: str
    running: str
    page: str


INTRODUCTION = {
    "en": IntroductionWords(
        title="Letter to {partner}",
        title_alone="A letter to introduce myself",
        to_both="Dear [person] and everyone at [partner],",
        to_business="Dear everyone at [partner],",
        to_person="Dear [person],",
        to_nobody="To whom it may concern,",
        follows="My name is [teacher], and I now teach art at [school] in place of [teacher before].",
        begins="My name is [teacher], and I now teach art at [school].",
        record="From the record that was kept I know what you have done for our students.",
        goods="Thank you for what you gave on [day]: [what came].",
        money="Thank you for the gift you made on [day].",
        trade="Thank you for your part in our trade on [day]: [what came].",
        help="Thank you for your help on [day]: [what came].",
        more="{count} more things",
        stays="What was promised stays as it was.",
        theirs="From your side: [still from them].",
        ours="From our side: [still from us].",
        by="{thing}, by {day}",
        free=(
            "You need do nothing because of this letter. If something has changed for you, please tell me; that is "
            "perfectly all right."
        ),
        reach="You can reach me at [how to reach you].",
        meet="I look forward to meeting you.",
        closing="With kind regards,",
        enclosed="Enclosed: {things}",
        running="To {partner}, {day}",
        page="page {page} of {pages}",
    ),
    "es": IntroductionWords(
        title="Carta para {partner}",
        title_alone="Una carta para presentarme",
        to_both="Apreciable [person] y el equipo de [partner]:",
        to_business="Al equipo de [partner]:",
        to_person="Apreciable [person]:",
        to_nobody="A quien corresponda:",
        follows="Me llamo [teacher] y ahora enseño arte en [school] en lugar de [teacher before].",
        begins="Me llamo [teacher] y ahora enseño arte en [school].",
        record="Por las notas que se llevaron, sé lo que [ha] hecho por nuestros estudiantes.",
        goods="Gracias por lo que [dio] el [day]: [what came].",
        money="Gracias por la donación que [hizo] el [day].",
        trade="Gracias por su parte de nuestro intercambio, el [day]: [what came].",
        help="Gracias por su ayuda el [day]: [what came].",
        more="{count} cosas más",
        stays="Lo que se prometió sigue en pie.",
        theirs="De su parte: [still from them].",
        ours="De nuestra parte: [still from us].",
        by="{thing}, a más tardar el {day}",
        free=(
            "No hace falta que [haga] nada por esta carta. Si algo ha cambiado para [usted], [dígamelo] con toda "
            "confianza; "
            "no hay ningún problema."
        ),
        reach="[puede] comunicarse conmigo en [how to reach you].",
        meet="Será un gusto [conocerle].",
        closing="Cordialmente,",
        enclosed="Se adjunta: {things}",
        running="Para {partner}, {day}",
        page="página {page} de {pages}",
    ),
}
SPOKEN_TO = (
    ("ha", "han"),
    ("dio", "dieron"),
    ("hizo", "hicieron"),
    ("haga", "hagan"),
    ("usted", "ustedes"),
    ("dígamelo", "díganmelo"),
    ("puede", "pueden"),
    ("conocerle", "conocerles"),
)
"""Spanish verbs for a person alone and for a business; the first is the name of the blank."""
NAME = "introduction-letter"
BLANKS = ("partner", "person", "teacher", "school")
PARTS = (
    Part("to_both", _("Greeting, to a place where you know somebody")),
    Part("to_business", _("Greeting, to a place where you know nobody")),
    Part("to_person", _("Greeting, to a person")),
    Part("to_nobody", _("Greeting where nobody is named")),
    Part("follows", _("Who you are, and who was before you"), ("teacher before",)),
    Part("begins", _("Who you are")),
    Part("record", _("That you know what they did"), may_go=True),
    Part("goods", _("Thanks for things that came last"), ("day", "what came")),
    Part("money", _("Thanks for money that came last"), ("day", "what came")),
    Part("trade", _("Thanks for their side of a trade"), ("day", "what came")),
    Part("help", _("Thanks for help that came last"), ("day", "what came")),
    Part("stays", _("That promises stay")),
    Part("theirs", _("What they still promised"), ("still from them",)),
    Part("ours", _("What we still promised"), ("still from us",)),
    Part("free", _("That they need do nothing")),
    Part("reach", _("How to reach you"), ("how to reach you",)),
    Part("meet", _("Last sentence"), may_go=True),
    Part("closing", _("Above your name")),
)
OR = {"en": " or ", "es": " o "}


def salutation(facts: Introduction) -> str:
    path = "to_nobody"
    if facts.contact and facts.partner and facts.contact != facts.partner:
        path = "to_both"
    elif facts.contact:
        path = "to_person"
    elif facts.partner:
        path = "to_business"
    return facts.say(path)


def paragraphs(facts: Introduction) -> tuple[str, ...]:
    """The body, worded from the record; what is not known is left out."""
    say = facts.say
    who = say("follows", teacher_before=facts.former) if facts.former else say("begins")
    came = _came(facts)
    parts = (
        (who, say("record") if came else ""),
        (came, sentence(facts.became)),
        _stands(facts),
        (say("free"),),
        (_reach(facts), say("meet")),
    )
    return tuple(" ".join(filter(None, part)) for part in parts if any(part))


def _came(facts: Introduction) -> str:
    """Thanks for what came last; what is not described is thanked for all the same."""
    if not facts.form or facts.came_on is None:
        return ""
    path = facts.form if facts.form in ("goods", "money", "trade") else "help"
    things = _listed([with_kind(item, facts.language) for item in facts.came], facts.language)
    bare = "" if things else house_words(facts.say.table, path).replace(": [what came].", ".")
    return facts.say(path, bare, day=spelled(facts.came_on, facts.language), what_came=things)


def _stands(facts: Introduction) -> tuple[str, ...]:
    say, told = facts.say, []
    if facts.theirs:
        told.append(say("theirs", still_from_them=_promised(facts.theirs, facts.language)))
    if facts.ours:
        told.append(say("ours", still_from_us=_promised(facts.ours, facts.language)))
    return (say("stays"), *told) if told else ()


def _promised(some: tuple[Stands, ...], language: str) -> str:
    words = INTRODUCTION[language]
    things = []
    for one in some:
        thing = with_kind(one.item, language)
        things.append(words.by.format(thing=thing, day=spelled(one.by, language)) if one.by else thing)
    return _listed(things, language)


def _listed(things: list[str], language: str) -> str:
    """The first few, and how many more there are: a letter is no list."""
    things, left = [one for one in things if one], len(things) - MOST_TOLD
    if left > 1:
        things = [*things[:MOST_TOLD], INTRODUCTION[language].more.format(count=number(left))]
    return joined(things, language)


def _reach(facts: Introduction) -> str:
    ways = [way for way in (facts.phone, facts.email) if way]
    return facts.say("reach", how_to_reach_you=OR[facts.language].join(ways)) if ways else ""
