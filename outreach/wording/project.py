"""The words of a project that two teachers share: the plan on one page, and the letter that invites to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from outreach.wording.counts import joined, sentence, students


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
    nothing: str
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
        nothing="To be filled in together",
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
        nothing="Se completa entre los dos",
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
    talk: str
    plan: str
    closing: str
    enclosed: str
    page: str


INVITATION = {
    "en": InvitationWords(
        title="A project together: {title}",
        greeting="Dear {colleague},",
        no_name="Dear colleague,",
        first="I would like to plan a project with you: {title}.",
        first_subject="I would like to plan a project with you that joins art and {subject}: {title}.",
        meant_for="It is meant for {who}",
        days="{who}, {when}",
        seen="Others can see it from {day}.",
        ours="I would {what}.",
        theirs="I hope that you would {what}.",
        free=(
            "All of this is a first sketch. What the children learn in your lessons stays your decision, and a yes, a "
            "no or another plan are all fine with me."
        ),
        talk="Could we sit together for ten minutes next week?",
        plan="the plan on one page",
        closing="With best wishes,",
        enclosed="Enclosed: {things}",
        page="page {page} of {pages}",
    ),
    "es": InvitationWords(
        title="Un proyecto en común: {title}",
        greeting="Hola, {colleague}:",
        no_name="Hola:",
        first="Me gustaría planear con usted un proyecto: {title}.",
        first_subject="Me gustaría planear con usted un proyecto que une arte y {subject}: {title}.",
        meant_for="Está pensado para {who}",
        days="{who}, {when}",
        seen="Otros lo podrán ver desde el {day}.",
        ours="De mi parte: {what}.",
        theirs="De su parte, si le parece bien: {what}.",
        free=(
            "Todo esto es un primer esbozo. Lo que los niños aprenden en sus clases lo decide usted, y un sí, un no u "
            "otro plan me parecen igual de bien."
        ),
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


def invitation(
    *,
    language: str,
    title: str,
    about: str = "",
    subject: str = "",
    who: str = "",
    when: str = "",
    seen: str = "",
    ours: Sequence[tuple[str, str]] = (),
    theirs: Sequence[tuple[str, str]] = (),
) -> tuple[str, ...]:
    """The paragraphs, worded from the record; what is not known is left out."""
    words = INVITATION[language]
    first = (words.first_subject if subject else words.first).format(title=title, subject=subject)
    meant = words.meant_for.format(who=words.days.format(who=who, when=when) if who and when else who or when)
    ours_words, theirs_words = does(ours, language), does(theirs, language)
    paragraphs = (
        (first, sentence(about)),
        (f"{meant}." if who or when else "", words.seen.format(day=seen) if seen else ""),
        (
            words.ours.format(what=ours_words) if ours_words else "",
            words.theirs.format(what=theirs_words) if theirs_words else "",
        ),
        (words.free,),
        (words.talk,),
    )
    return tuple(" ".join(filter(None, parts)) for parts in paragraphs if any(parts))
