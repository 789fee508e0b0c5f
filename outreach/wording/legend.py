"""What each blank stands for, in a few words for who writes with them."""

from __future__ import annotations

from collections.abc import Iterable

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

LEGEND: dict[str, str | Promise] = {
    "partner": _("the shop or group, as you write its name"),
    "giver": _("who gave, as you write the name"),
    "person": _("whom you write to there"),
    "teacher": _("you, by your name"),
    "school": _("the school"),
    "colleague": _("the colleague’s name"),
    "helper": _("the helper’s name"),
    "title": _("what it is called in your book"),
    "subject": _("the colleague’s subject"),
    "day": _("the day of what it is about, as “October 6, 2026”"),
    "amount": _("the money, as “$150.00”"),
    "children": _("how many, as “604 students”"),
    "all children": _("how many work in the art room, as “604 students”"),
    "grades": _("as “kindergarten to grade 5”"),
    "what we ask": _("what the sheet asks for, with its number"),
    "something smaller": _("the smaller alternative"),
    "what came": _("the things with their numbers"),
    "what was lent": _("the things that were lent"),
    "purpose": _("what the giver wants it used for, in their words"),
    "asked for": _("what you had asked the money for"),
    "their promise": _("what they promised, with its number"),
    "our side": _("what the students make in the trade"),
    "what it became": _("your sentence from the project’s page, whole"),
    "day named": _("the day they named"),
    "return day": _("the day the loan goes back"),
    "hours": _("the time that was given, as “2.5 hours”"),
    "jobs": _("what was helped with"),
    "job": _("what the helpers do"),
    "how to reach you": _("your phone and e-mail; in a mail a whole sentence"),
    "how many are missing": _("as “Two helpers are still missing”"),
    "first day": _("the first day"),
    "last day": _("the last day"),
    "for whom": _("the classes and the time"),
    "show day": _("the day from which it is shown"),
    "what you do": _("what you bring and teach"),
    "what they do": _("what the colleague brings and teaches"),
    "year": _("the year, as “2026–27”"),
    "names": _("the partners that may be named"),
    "asked": _("the amount that you had asked for"),
    "what we bought": _("the lines that receipts are charged to"),
    "spent": _("the money that is spent"),
    "left": _("the money that is left"),
    "over": _("by how much it is too much"),
    "gifts": _("how many gifts"),
    "families": _("how many of them from families"),
    "helpers": _("how many helpers"),
    "kept": _("how many promises partners kept"),
    "promised": _("how many promises of partners were due"),
    "kept by us": _("how many promises the school kept"),
    "promised by us": _("how many promises of the school were due"),
    "sent": _("how many notes were sent"),
    "owed": _("how many notes were owed"),
    "needs": _("what would help most"),
    "teacher before": _("who was the teacher before you"),
    "still from them": _("what they promised and has not come"),
    "still from us": _("what we promised and have not done"),
}


def spoken_to(verbs: Iterable[tuple[str, str]]) -> dict[str, str | Promise]:
    """For the blanks of Spanish verbs, which have their first form as a name."""
    words = _("“{one}” to one person, “{many}” to a business")
    return {one: format_lazy(words, one=one, many=many) for one, many in verbs}
