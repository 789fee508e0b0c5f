"""The letter of who takes over: the new name, thanks for what came, and that promises stay. It asks for nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from outreach.wording.counts import Item, joined, number, sentence, with_kind
from outreach.wording.dates import spelled

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
    reach_both: str
    meet: str
    closing: str
    enclosed: str
    running: str
    page: str


INTRODUCTION = {
    "en": IntroductionWords(
        title="Letter to {partner}",
        title_alone="A letter to introduce myself",
        to_both="Dear {contact} and everyone at {partner},",
        to_business="Dear everyone at {partner},",
        to_person="Dear {contact},",
        to_nobody="To whom it may concern,",
        follows="My name is {teacher}, and I now teach art at {school} in place of {former}.",
        begins="My name is {teacher}, and I now teach art at {school}.",
        record="From the record that was kept I know what you have done for our students.",
        goods="Thank you for what you gave on {day}: {things}.",
        money="Thank you for the gift you made on {day}.",
        trade="Thank you for your part in our exchange on {day}: {things}.",
        help="Thank you for your help on {day}: {things}.",
        more="{count} more things",
        stays="What was promised stays as it was.",
        theirs="From your side: {things}.",
        ours="From our side: {things}.",
        by="{thing}, by {day}",
        free=(
            "You need do nothing because of this letter. If something has changed for you, please tell me; that is "
            "perfectly all right."
        ),
        reach="You can reach me at {one}.",
        reach_both="You can reach me at {one} or {other}.",
        meet="I look forward to meeting you.",
        closing="With kind regards,",
        enclosed="Enclosed: {things}",
        running="To {partner}, {day}",
        page="page {page} of {pages}",
    ),
    "es": IntroductionWords(
        title="Carta para {partner}",
        title_alone="Una carta para presentarme",
        to_both="Apreciable {contact} y el equipo de {partner}:",
        to_business="Al equipo de {partner}:",
        to_person="Apreciable {contact}:",
        to_nobody="A quien corresponda:",
        follows="Me llamo {teacher} y ahora enseño arte en {school} en lugar de {former}.",
        begins="Me llamo {teacher} y ahora enseño arte en {school}.",
        record="Por las notas que se llevaron, sé lo que {have} hecho por nuestros estudiantes.",
        goods="Gracias por lo que {gave} el {day}: {things}.",
        money="Gracias por la donación que {made} el {day}.",
        trade="Gracias por su parte de nuestro intercambio, el {day}: {things}.",
        help="Gracias por su ayuda el {day}: {things}.",
        more="{count} cosas más",
        stays="Lo que se prometió sigue en pie.",
        theirs="De su parte: {things}.",
        ours="De nuestra parte: {things}.",
        by="{thing}, a más tardar el {day}",
        free=(
            "No hace falta que {do} nada por esta carta. Si algo ha cambiado para {you}, {tell} con toda confianza; "
            "no hay ningún problema."
        ),
        reach="{Can} comunicarse conmigo en {one}.",
        reach_both="{Can} comunicarse conmigo en {one} o {other}.",
        meet="Será un gusto {meet}.",
        closing="Cordialmente,",
        enclosed="Se adjunta: {things}",
        running="Para {partner}, {day}",
        page="página {page} de {pages}",
    ),
}
FORMS = {
    "have": ("ha", "han"),
    "gave": ("dio", "dieron"),
    "made": ("hizo", "hicieron"),
    "do": ("haga", "hagan"),
    "you": ("usted", "ustedes"),
    "tell": ("dígamelo", "díganmelo"),
    "Can": ("Puede", "Pueden"),
    "meet": ("conocerle", "conocerles"),
}
"""Spanish singular and plural of each verb, for a person alone and for a business."""


def salutation(facts: Introduction) -> str:
    words = INTRODUCTION[facts.language]
    pattern = words.to_nobody
    if facts.contact and facts.partner and facts.contact != facts.partner:
        pattern = words.to_both
    elif facts.contact:
        pattern = words.to_person
    elif facts.partner:
        pattern = words.to_business
    return pattern.format(contact=facts.contact, partner=facts.partner)


def paragraphs(facts: Introduction) -> tuple[str, ...]:
    """The body, worded from the record; what is not known is left out."""
    words = INTRODUCTION[facts.language]
    who = (words.follows if facts.former else words.begins).format(
        teacher=facts.teacher, school=facts.school, former=facts.former
    )
    came = _came(facts)
    record = _say(facts, words.record) if came else ""
    parts = (
        (who, record),
        (came, sentence(facts.became)),
        _stands(facts),
        (_say(facts, words.free),),
        (_reach(facts), _say(facts, words.meet)),
    )
    return tuple(" ".join(filter(None, part)) for part in parts if any(part))


def _say(facts: Introduction, pattern: str, **values: str) -> str:
    plural = bool(facts.partner and facts.partner != facts.contact)
    return pattern.format(**{name: both[plural] for name, both in FORMS.items()}, **values)


def _came(facts: Introduction) -> str:
    """Thanks for what came last; what is not described is thanked for all the same."""
    words = INTRODUCTION[facts.language]
    if not facts.form or facts.came_on is None:
        return ""
    patterns = {"goods": words.goods, "money": words.money, "trade": words.trade}
    pattern = patterns.get(facts.form, words.help)
    things = _listed([with_kind(item, facts.language) for item in facts.came], facts.language)
    said = _say(facts, pattern, day=spelled(facts.came_on, facts.language), things=things)
    return said if things else said.replace(": .", ".")


def _stands(facts: Introduction) -> tuple[str, ...]:
    words = INTRODUCTION[facts.language]
    sides = ((words.theirs, facts.theirs), (words.ours, facts.ours))
    told = [pattern.format(things=_promised(some, facts.language)) for pattern, some in sides if some]
    return (words.stays, *told) if told else ()


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
    words, ways = INTRODUCTION[facts.language], [way for way in (facts.phone, facts.email) if way]
    if len(ways) == 2:
        return _say(facts, words.reach_both, one=ways[0], other=ways[1])
    return _say(facts, words.reach, one=ways[0]) if ways else ""
