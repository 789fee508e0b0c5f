"""Sentences for a two-minute talk, each short enough for one breath, from the counts of a year."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from outreach.wording.counts import joined, number, sentence, students
from outreach.wording.year import YEAR, of_number
from outreach.wording.year_facts import Facts


class TalkWords(NamedTuple):
    title: str
    children: str
    gifts: tuple[str, str]
    families: str
    became: str
    helpers: str
    kept: str
    thanks: str
    needs: str
    if_asked: str
    careful: str
    page: str


TALK: dict[str, TalkWords] = {
    "en": TalkWords(
        title="Two minutes about art, {year}",
        children="This year {children} made art with us.",
        gifts=("People in town gave us something once.", "People in town gave to us {n} times."),
        families="People in town gave to us {n} times, {families} of these from families at home.",
        became="This is what became of it: {became}",
        helpers="{helpers} gave {hours} of their own time.",
        kept="Our partners kept {kept} of {promised} promises, and we kept {ours} of {ours_promised} of our own.",
        thanks="We wrote {said} of the {owed} thank-you notes that we owe.",
        needs="What would help most next year: {needs}.",
        if_asked="If they ask",
        careful="Counts first. Nobody is named, and nothing is promised that art would do for other subjects.",
        page="page {page} of {pages}",
    ),
    "es": TalkWords(
        title="Dos minutos sobre el arte, {year}",
        children="Este año {children} hicieron arte con nosotros.",
        gifts=("La gente del pueblo nos dio algo una vez.", "La gente del pueblo nos dio algo {n} veces."),
        families="La gente del pueblo nos dio algo {n} veces; {families} fueron de familias.",
        became="Esto se hizo con ello: {became}",
        helpers="{helpers} dieron {hours} de su tiempo.",
        kept="Nuestros socios cumplieron {kept} de {promised} promesas; nosotros, {ours} de {ours_promised}.",
        thanks="Escribimos {said} de las {owed} notas de gracias que debemos.",
        needs="Lo que más ayudaría el próximo año: {needs}.",
        if_asked="Si preguntan",
        careful="Primero los números. No se nombra a nadie ni se promete que el arte sirva para otras materias.",
        page="página {page} de {pages}",
    ),
}


def sentences(facts: Facts) -> list[str]:
    """What can be said of the year, the most telling first; the need comes last, where there is one."""
    found = [_children(facts), _gifts(facts), _became(facts), _helpers(facts), _kept(facts), _thanks(facts)]
    told = [one for one in found if one]
    needs = _needs(facts)
    return [*told[:4], needs] if needs else told


def _children(facts: Facts) -> str:
    words = TALK[facts.language]
    return words.children.format(children=students(facts.students, facts.language)) if facts.students else ""


def _gifts(facts: Facts) -> str:
    words, whole = TALK[facts.language], sum(count for form, count in facts.gifts if form != "loan")
    if not whole:
        return ""
    if facts.families:
        return words.families.format(n=number(whole), families=number(facts.families))
    return of_number(words.gifts, whole)


def _became(facts: Facts) -> str:
    return TALK[facts.language].became.format(became=sentence(facts.became[0])) if facts.became else ""


def _helpers(facts: Facts) -> str:
    if not facts.helpers or not facts.minutes:
        return ""
    words = YEAR[facts.language]
    hours = (Decimal(facts.minutes) / 60).quantize(Decimal("0.1"))
    told = words.hours[0] if hours == 1 else words.hours[1].format(n=number(hours))
    return TALK[facts.language].helpers.format(helpers=of_number(words.helpers, facts.helpers), hours=told)


def _kept(facts: Facts) -> str:
    if not all(facts.promised):
        return ""
    (theirs, ours), (kept, own) = facts.promised, facts.kept
    figures = {"kept": kept, "promised": theirs, "ours": own, "ours_promised": ours}
    return TALK[facts.language].kept.format(**figures)


def _thanks(facts: Facts) -> str:
    figures = {"said": facts.thanks_said, "owed": facts.thanks_owed}
    return TALK[facts.language].thanks.format(**figures) if facts.thanks_owed else ""


def _needs(facts: Facts) -> str:
    return TALK[facts.language].needs.format(needs=joined(list(facts.needs), facts.language)) if facts.needs else ""
