"""Every sheet whose words a teacher may say differently, in the order of the page "Your words": the list to add to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from outreach import samples
from outreach.documents import helper_note, leave_behind
from outreach.wording import helper_thanks
from outreach.wording import leave_behind as asking
from outreach.wording.own_words import Part
from partners.program.desk import Desk

Rows = Callable[[Desk, Part], Iterable[Any]]


@dataclass(frozen=True)
class Worded:
    """The words of one sheet: where the house's stand, what may be changed and by which blanks.

    `slug` is the document that shows an example: of the newest `rows` of the record that say the part, else of
    `sample(language, part)`, whose facts always say it. `always` are what the sheet says whatever is changed.
    """

    name: str
    title: str | Promise
    slug: str
    tables: Mapping[str, Any]
    parts: tuple[Part, ...]
    blanks: tuple[str, ...]
    sample: Callable[[str, Part], Any]
    rows: Rows
    always: tuple[str, ...] = ()

    def part(self, path: str) -> Part:
        """KeyError where there is no such part."""
        return {one.path: one for one in self.parts}[path]


WORDED: tuple[Worded, ...] = (
    Worded(
        name=asking.NAME,
        title=leave_behind.TITLE,
        slug=leave_behind.SLUG,
        tables=asking.SHEET,
        parts=asking.PARTS,
        blanks=asking.BLANKS,
        sample=samples.leave_behind,
        rows=lambda desk, part: desk.partners.order_by("-last_heard_on", "-pk"),
        always=("never", "name_you"),
    ),
    Worded(
        name=helper_thanks.NAME,
        title=helper_note.TITLE,
        slug=helper_note.SLUG,
        tables=helper_thanks.NOTE,
        parts=helper_thanks.PARTS,
        blanks=helper_thanks.BLANKS,
        sample=samples.helper_note,
        rows=lambda desk, part: desk.helpers.filter(forgotten_on=None).order_by("-pk"),
    ),
)
_BY_NAME = {one.name: one for one in WORDED}


def worded(name: str) -> Worded:
    """The words of that sheet; KeyError where there are none."""
    return _BY_NAME[name]


LEGEND: dict[str, str | Promise] = {
    "partner": _("the shop or group, as you write its name"),
    "person": _("whom you write to there"),
    "teacher": _("you, by your name"),
    "school": _("the school on the letterhead"),
    "children": _("how many: “604 students”"),
    "grades": _("“kindergarten to grade 5”"),
    "what we ask": _("what the sheet asks for, with its number"),
    "something smaller": _("the smaller alternative"),
    "day": _("the day on the sheet, or of what is thanked for"),
    "helper": _("the helper’s name"),
    "hours": _("the time that was given: “2.5 hours”"),
    "jobs": _("what was helped with"),
}
"""What each blank stands for, in a few words."""
