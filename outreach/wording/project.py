"""The words of a project that two teachers share: the plan on one page, and the letter that invites to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import joined, sentence, students
from outreach.wording.own_words import Part, Voice


class PlanWords(NamedTuple):
    title: str
    two: str
    two_alone: str
    one: str
    art: str
    brings: str
    teaches: str
    by: str
    done: str
    by_day: str
    colleague: str
    classes: str
    when: str
    from_to: str
    begins: str
    ends: str
    seen: str
    show: str
    needs: str
    needed: str
    lesson: str
    signs: str
    principal: str
    approved: str
    date: str
    page: str


PLAN = {
    "en": PlanWords(
        title="Joint plan",
        two="A plan of {teacher} and {colleague}",
        two_alone="A plan of {teacher} and a colleague",
        one="A plan of {teacher}",
        art="{teacher}, art",
        brings="brings",
        teaches="teaches",
        by="by {day}",
        done="done",
        by_day="by",
        colleague="A colleague",
        classes="Classes",
        when="When",
        from_to="from {first} to {last}",
        begins="from {first}",
        ends="until {last}",
        seen="To be seen",
        show="{title}, from {day}",
        needs="What we need",
        needed="{what} by {day}",
        lesson=(
            "Both subjects come first: what is made serves what is learned. Work is shown with school and grade, never "
            "with a child’s last name, and photographed only where the school holds a release."
        ),
        signs="{name}",
        principal="Principal",
        approved="Approved by {by}, {day}",
        date="Date",
        page="page {page} of {pages}",
    ),
    "es": PlanWords(
        title="Plan en común",
        two="Un plan de {teacher} y {colleague}",
        two_alone="Un plan de {teacher} con otra clase",
        one="Un plan de {teacher}",
        art="{teacher}, arte",
        brings="trae",
        teaches="enseña",
        by="a más tardar el {day}",
        done="hecho",
        by_day="a más tardar",
        colleague="Otra clase",
        classes="Clases",
        when="Cuándo",
        from_to="del {first} al {last}",
        begins="desde el {first}",
        ends="hasta el {last}",
        seen="Se podrá ver",
        show="{title}, desde el {day}",
        needs="Qué necesitamos",
        needed="{what}, a más tardar el {day}",
        lesson=(
            "Las dos materias van primero: lo que se hace sirve para lo que se aprende. Las obras se muestran con la "
            "escuela y el grado, nunca con el apellido de un niño, y solo se fotografían si la escuela tiene permiso."
        ),
        signs="{name}",
        principal="Dirección",
        approved="Aprobado por {by}, {day}",
        date="Fecha",
        page="página {page} de {pages}",
    ),
}


class InvitationWords(NamedTuple):
    title: str
    greeting: str
    no_name: str
    first: str
    first_subject: str
    meant_for: str
    days: str
    seen: str
    ours: str
    theirs: str
    free: str
    open: str
    talk: str
    plan: str
    closing: str
    enclosed: str
    page: str


INVITATION = {
    "en": InvitationWords(
        title="A project together: [title]",
        greeting="Dear [colleague],",
        no_name="Dear colleague,",
        first="I would like to plan a project with you: [title].",
        first_subject="I would like to plan a project with you that joins art and [subject]: [title].",
        meant_for="It is meant for [for whom].",
        days="{who}, {when}",
        seen="Others can see it from [show day].",
        ours="I would [what you do].",
        theirs="I hope that you would [what they do].",
        free=(
            "All of this is a first sketch. What the children learn in your lessons stays your decision, and a yes, a "
            "no or another plan are all fine with me."
        ),
        open="The plan has room for what each of us brings and teaches: I would like to fill it in with you.",
        talk="Could we sit together for ten minutes next week?",
        plan="the plan on one page",
        closing="With best wishes,",
        enclosed="Enclosed: {things}",
        page="page {page} of {pages}",
    ),
    "es": InvitationWords(
        title="Un proyecto en común: [title]",
        greeting="Hola, [colleague]:",
        no_name="Hola:",
        first="Me gustaría planear con usted un proyecto: [title].",
        first_subject="Me gustaría planear con usted un proyecto que une arte y [subject]: [title].",
        meant_for="Está pensado para [for whom].",
        days="{who}, {when}",
        seen="Otros lo podrán ver desde el [show day].",
        ours="De mi parte: [what you do].",
        theirs="De su parte, si le parece bien: [what they do].",
        free=(
            "Todo esto es un primer esbozo. Lo que los niños aprenden en sus clases lo decide usted, y un sí, un no u "
            "otro plan me parecen igual de bien."
        ),
        open="El plan tiene lugar para lo que cada uno trae y enseña: me gustaría completarlo con usted.",
        talk="¿Podríamos sentarnos diez minutos la próxima semana?",
        plan="el plan en una página",
        closing="Saludos cordiales,",
        enclosed="Se adjunta: {things}",
        page="página {page} de {pages}",
    ),
}
DOES = {
    "en": {"brings": "bring {what}", "teaches": "teach {what}"},
    "es": {"brings": "traer {what}", "teaches": "enseñar {what}"},
}


def does(parts: Sequence[tuple[str, str]], language: str) -> str:
    """What one of the two would do, as the end of a sentence: (brings or teaches, what) each.

    >>> does([("brings", "clay"), ("brings", "brushes"), ("teaches", "pinch pots")], "en")
    'bring clay and brushes, and teach pinch pots'
    """
    sides = []
    for how, words in DOES[language].items():
        things = [what for one, what in parts if one == how]
        if things:
            sides.append(words.format(what=joined(things, language)))
    link = {"en": ", and ", "es": ", y "}[language]
    return link.join(sides)


def for_whom(classes: str, children: int | None, language: str) -> str:
    counted = students(children, language) if children else ""
    return f"{classes} ({counted})" if classes and counted else classes or counted


NAME = "colleague-invitation"
BLANKS = ("colleague", "title", "subject", "for whom", "teacher", "school")
PARTS = (
    Part("title", _("Heading of the file")),
    Part("greeting", _("Greeting")),
    Part("no_name", _("Greeting where nobody is named")),
    Part("first", _("First sentence")),
    Part("first_subject", _("First sentence, with the other subject")),
    Part("meant_for", _("For which classes, and when")),
    Part("seen", _("From when it is shown"), ("show day",)),
    Part("ours", _("What you would do"), ("what you do",)),
    Part("theirs", _("What they would do"), ("what they do",)),
    Part("free", _("That they are free to decide")),
    Part("talk", _("The question at the end")),
    Part("closing", _("Above your name")),
)


def meant_for(who: str, when: str, language: str) -> str:
    return INVITATION[language].days.format(who=who, when=when) if who and when else who or when


def invitation(
    say: Voice,
    *,
    about: str = "",
    seen: str = "",
    ours: Sequence[tuple[str, str]] = (),
    theirs: Sequence[tuple[str, str]] = (),
) -> tuple[str, ...]:
    """The paragraphs, worded from the record; what is not known is left out."""
    ours_words, theirs_words = does(ours, say.language), does(theirs, say.language)
    paragraphs = (
        (say("first_subject" if say.values.get("subject") else "first"), sentence(about)),
        (say("meant_for") if say.values.get("for whom") else "", say("seen", show_day=seen) if seen else ""),
        (INVITATION[say.language].open,) if not ours_words and not theirs_words else (),
        (
            say("ours", what_you_do=ours_words) if ours_words else "",
            say("theirs", what_they_do=theirs_words) if theirs_words else "",
        ),
        (say("free"),),
        (say("talk"),),
    )
    return tuple(" ".join(filter(None, parts)) for parts in paragraphs if any(parts))
