"""Sentences for a two-minute talk, each short enough for one breath, from the counts of a year."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import joined, number, sentence, students
from outreach.wording.own_words import Part, Voice
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
        title="Two minutes about art, [year]",
        children="This year [children] made art with us.",
        gifts=("People in town gave us something once.", "People in town gave to us {n} times."),
        families="People in town gave to us [gifts] times, [families] of these from families at home.",
        became="This is what became of it: [what it became]",
        helpers="[helpers] gave [hours] of their own time.",
        kept=(
            "Our partners kept [kept] of [promised] promises, and we kept [kept by us] of [promised by us] of our own."
        ),
        thanks="We wrote [sent] of the [owed] thank-you notes that we owe.",
        needs="What would help most next year: [needs].",
        if_asked="If they ask",
        careful="Counts first. Nobody is named, and nothing is promised that art would do for other subjects.",
        page="page {page} of {pages}",
    ),
    "es": TalkWords(
        title="Dos minutos sobre el arte, [year]",
        children="Este año [children] hicieron arte con nosotros.",
        gifts=("La gente del pueblo nos dio algo una vez.", "La gente del pueblo nos dio algo {n} veces."),
        families="La gente del pueblo nos dio algo [gifts] veces; [families] fueron de familias.",
        became="Esto se hizo con ello: [what it became]",
        helpers="[helpers] dieron [hours] de su tiempo.",
        kept="Nuestros socios cumplieron [kept] de [promised] promesas; nosotros, [kept by us] de [promised by us].",
        thanks="Escribimos [sent] de las [owed] notas de gracias que debemos.",
        needs="Lo que más ayudaría el próximo año: [needs].",
        if_asked="Si preguntan",
        careful="Primero los números. No se nombra a nadie ni se promete que el arte sirva para otras materias.",
        page="página {page} de {pages}",
    ),
}


NAME = "talk-card"
BLANKS = ("year", "teacher", "school")
PARTS = (
    Part("title", _("Heading")),
    Part("children", _("For how many children"), ("children",)),
    Part("families", _("What people gave, and families among them"), ("gifts", "families")),
    Part("became", _("What became of it"), ("what it became",)),
    Part("helpers", _("Helpers and their hours"), ("helpers", "hours")),
    Part("kept", _("Promises that were kept"), ("kept", "promised", "kept by us", "promised by us")),
    Part("thanks", _("Thank-you notes"), ("sent", "owed")),
    Part("needs", _("What would help next"), ("needs",)),
    Part("if_asked", _("Label: if they ask")),
)
ALWAYS = ("careful",)


def voice(facts: Facts) -> Voice:
    values = {"year": facts.year, "teacher": facts.teacher, "school": facts.letterhead.school}
    return Voice(NAME, facts.language, TALK[facts.language], facts.wording, values)


def sentences(facts: Facts) -> list[str]:
    """What can be said of the year, the most telling first; the need comes last, where there is one."""
    say = voice(facts)
    found = [one(facts, say) for one in (_children, _gifts, _became, _helpers, _kept, _thanks)]
    told = [one for one in found if one]
    needs = say("needs", needs=joined(list(facts.needs), facts.language)) if facts.needs else ""
    return [*told[:4], needs] if needs else told


def _children(facts: Facts, say: Voice) -> str:
    return say("children", children=students(facts.students, facts.language)) if facts.students else ""


def _gifts(facts: Facts, say: Voice) -> str:
    whole = sum(count for form, count in facts.gifts if form != "loan")
    if not whole:
        return ""
    if facts.families:
        return say("families", gifts=number(whole), families=number(facts.families))
    return of_number(TALK[facts.language].gifts, whole)


def _became(facts: Facts, say: Voice) -> str:
    return say("became", what_it_became=sentence(facts.became[0])) if facts.became else ""


def _helpers(facts: Facts, say: Voice) -> str:
    if not facts.helpers or not facts.minutes:
        return ""
    words = YEAR[facts.language]
    hours = (Decimal(facts.minutes) / 60).quantize(Decimal("0.1"))
    told = words.hours[0] if hours == 1 else words.hours[1].format(n=number(hours))
    return say("helpers", helpers=of_number(words.helpers, facts.helpers), hours=told)


def _kept(facts: Facts, say: Voice) -> str:
    # Nothing that was kept is nothing to stand up for; the figures below the fold tell it to whoever asks.
    if not (all(facts.promised) and all(facts.kept)):
        return ""
    (theirs, ours), (kept, own) = facts.promised, facts.kept
    figures = {"kept": kept, "promised": theirs, "kept_by_us": own, "promised_by_us": ours}
    return say("kept", **{name: number(figure) for name, figure in figures.items()})


def _thanks(facts: Facts, say: Voice) -> str:
    if not facts.thanks_said:
        return ""
    return say("thanks", sent=number(facts.thanks_said), owed=number(facts.thanks_owed))
