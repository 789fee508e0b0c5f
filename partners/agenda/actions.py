"""Settling due lines, one or many; changing a school's calendar, with every date that was counted over it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.agenda.redate import redate
from partners.ground.changes import change
from partners.ground.due import DueLine, DueSource
from partners.program.desk import Desk
from partners.school import actions as school_actions
from partners.school.clock import clock
from partners.school.models import School, SchoolDays

MOVES = ("move", "not_this_month")


class CannotSettle(Exception):
    """The line cannot be settled that way; the message says why."""


@dataclass(frozen=True)
class Chosen:
    """A due line that is to be settled: where it comes from, its row, and how it is shown."""

    source: DueSource
    row: Any
    line: DueLine


def settle(*, desk: Desk, chosen: Sequence[Chosen], act: str, label: str, to: date | None = None) -> None:
    """Carry out one act on all the chosen lines, as one event that remembers them. Raises CannotSettle."""
    if act == "not_this_month":
        to = clock(desk.program).on_or_after(next_month(desk.day))
    if act in MOVES and to is None:
        raise CannotSettle(_("Say to which day."))
    if act in MOVES and to is not None and to <= desk.day:
        raise CannotSettle(_("That day has gone by. Choose a later one."))
    verb_code = "move" if act in MOVES else act
    if any(verb_code not in one.source.settle for one in chosen):
        raise CannotSettle(_("Not every line can be settled that way. Untick the others and try again."))
    extra = {"due": to} if act in MOVES else {}
    with change(desk, gettext_noop("%(what)s: %(label)s"), what=heading(chosen), label=label) as book:
        for one in chosen:
            one.source.settle[verb_code](desk=desk, row=one.row, day=desk.day, **extra)
        book.event.facts["lines"] = [remembered(one.line, label, act in MOVES) for one in chosen]


def heading(chosen: Sequence[Chosen]) -> str:
    first = chosen[0].line
    words = f"{first.who}, {first.what}" if first.who else first.what
    return words if len(chosen) == 1 else _("%(first)s and %(more)d more") % {"first": words, "more": len(chosen) - 1}


def remembered(line: DueLine, label: str, moved: bool) -> dict[str, Any]:
    return {
        "key": line.key,
        "hand": str(line.hand),
        "who": line.who,
        "what": line.what,
        "verb": str(line.verb),
        "due": line.due.isoformat(),
        "settled": label,
        "moved": moved,
    }


def next_month(day: date) -> date:
    return date(day.year + day.month // 12, day.month % 12 + 1, 1)


def close_days(
    *, desk: Desk, school: School, stretches: Sequence[tuple[date, date, str, str]]
) -> tuple[list[SchoolDays], int]:
    """Enter stretches (first, last, kind, title) in a school's calendar. Returns them and how many dates moved."""
    with change(desk, gettext_noop("Calendar of %(school)s changed"), school=school) as book:
        entered = [
            school_actions.add_days(desk=desk, school=school, first=first, last=last, kind=kind, title=title)
            for first, last, kind, title in stretches
        ]
        book.about(school)
        return entered, redate(book, desk)


def open_days(*, desk: Desk, days: SchoolDays) -> int:
    """Take a stretch out of the calendar. Returns how many dates moved."""
    with change(desk, gettext_noop("Calendar of %(school)s changed"), school=days.school) as book:
        school_actions.remove_days(desk=desk, days=days)
        book.about(days.school)
        return redate(book, desk)
