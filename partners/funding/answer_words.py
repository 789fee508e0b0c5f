"""What applications always ask, and first answers from the record: who we are, our numbers, our need, a part of it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from typing import Any

from django.db.models import F, Max, Min, Sum
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.funding.answer_actions import Ready
from partners.ground.money import format_cents
from partners.program.desk import Desk
from partners.wish_list.wanted import cost_of, wanted_of

NEEDS_NAMED = 6
PARTS_NAMED = 5


def part_question() -> str:
    return _("How would you use a part of it?")


def need_question() -> str:
    return _("What do you need, and why?")


def first_answers(desk: Desk) -> list[Ready]:
    """The questions to begin with, each with what the record says to it."""
    return [
        Ready(_("Who are you?"), who_we_are(desk)),
        Ready(_("How many children do you reach?"), our_numbers(desk)),
        Ready(need_question(), our_need(desk)),
        Ready(part_question(), part_of_needs(desk)),
    ]


def who_we_are(desk: Desk) -> str:
    program, schools = desk.program, [str(school) for school in desk.schools]
    if not schools:
        return _("%(teacher)s teaches art in our public school.") % {"teacher": program.teacher}
    facts = {"program": program.name, "teacher": program.teacher, "schools": get_text_list(schools, _("and"))}
    words = ngettext(
        "%(program)s is the art program of %(schools)s, a public school. %(teacher)s teaches it.",
        "%(program)s is the art program of %(schools)s, which are public schools. %(teacher)s teaches it.",
        len(schools),
    )
    return words % facts


def our_numbers(desk: Desk) -> str:
    """Students, classes and schools as they are in the record today; children are only counted."""
    taught = desk.classes.with_students()
    found: dict[str, Any] = taught.aggregate(students=Sum("students"), first=Min("grade"), last=Max("grade"))
    classes, schools = taught.count(), desk.schools.count()
    if not found["students"]:
        return _("Fill in: how many students in how many classes.")
    facts = {
        "students": ngettext("%(n)s student", "%(n)s students", found["students"]) % {"n": f"{found['students']:,}"},
        "classes": ngettext("%(n)d class", "%(n)d classes", classes) % {"n": classes},
        "schools": ngettext("%(n)d school", "%(n)d schools", schools) % {"n": schools},
        "grades": _grades(found["first"], found["last"]),
    }
    return _("We reach %(students)s in %(classes)s at %(schools)s, %(grades)s.") % facts


def _grades(first: int, last: int) -> str:
    names = {-1: _("pre-kindergarten"), 0: _("kindergarten")}
    one, other = (names.get(grade) or _("grade %(n)d") % {"n": grade} for grade in (first, last))
    return one if one == other else _("%(first)s to %(last)s") % {"first": one, "last": other}


def _open_needs(desk: Desk) -> list[Any]:
    """The soonest first; what is found in households no grantmaker is asked for."""
    return list(
        desk.needs.open().filter(household=False).order_by(F("needed_by").asc(nulls_last=True), "pk")[:NEEDS_NAMED]
    )


def our_need(desk: Desk) -> str:
    """The first open needs of the wish list, with their numbers."""
    needs = _open_needs(desk)
    if not needs:
        return _("Fill in: what you need, how many, and what the children make of it.")
    named = [f"{wanted_of(need):,} {need}" if wanted_of(need) else str(need) for need in needs]
    return _("This year our students need %(things)s.") % {"things": get_text_list(named, _("and"))}


def part_of_needs(desk: Desk) -> str:
    priced = [(str(need), cost_of(need)) for need in _open_needs(desk)]
    return part_words([(what, cents) for what, cents in priced if cents])


def part_words(things: Sequence[tuple[str, int]]) -> str:
    """How a part of the money would be used: the things in their order, each with the sum at which it is reached.

    `things` are (what, cents). Empty without any.
    """
    if not things:
        return _("Every part helps. We would buy what the children need first, as much as the money pays for.")
    if len(things) == 1:
        words = _("Every part helps: we would buy as much of %(what)s as it pays for. All of it comes to %(sum)s.")
        return words % {"what": things[0][0], "sum": format_cents(things[0][1])}
    sums = [format_cents(cents) for cents in accumulate(cents for _what, cents in things)]
    named = list(zip([what for what, _cents in things], sums, strict=True))[:PARTS_NAMED]
    first, others = named[0], named[1:]
    more = [_("with %(sum)s also %(what)s") % {"sum": reached, "what": what} for what, reached in others]
    facts = {"sum": first[1], "what": first[0], "more": get_text_list(more, _("and"))}
    return _("Every part helps, in this order: with %(sum)s we would buy %(what)s, %(more)s.") % facts


def for_grant(grant: Any, ready: Ready) -> Ready:
    """A ready answer as an application copies it: of what is needed, and of a part of it, its own lines tell."""
    lines = list(grant.lines.all())
    if not lines or ready.question not in (part_question(), need_question()):
        return ready
    if ready.question == part_question():
        return Ready(
            ready.question, part_words([(line.what, line.planned_cents + line.shipping_cents) for line in lines])
        )
    return Ready(ready.question, need_words([(line.what, line.quantity) for line in lines], ready.words))


def need_words(things: Sequence[tuple[str, int | None]], ready: str) -> str:
    """The things (what, how many) of an application in the place of the wish list; what was written besides stays."""
    named = [f"{what} ({count:,})" if count and count > 1 else what for what, count in things]
    words = _("This grant would give our students: %(things)s.") % {"things": "; ".join(named)}
    begins, ends = _("This year our students need %(things)s.").split("%(things)s")
    if ready == _("Fill in: what you need, how many, and what the children make of it."):
        return words
    own = ready.removeprefix(begins).partition(ends)[2] if ready.startswith(begins) else ready
    return f"{words} {own.strip()}".strip()
