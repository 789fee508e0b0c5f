"""Settling due lines, one or many; changing what dates are counted over; taking a change back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.utils.formats import date_format
from django.utils.text import get_text_list
from django.utils.translation import gettext, gettext_noop, ngettext
from django.utils.translation import gettext as _

from partners.agenda.last_heard import hear_again
from partners.agenda.redate import redate
from partners.ground.changes import Change, change
from partners.ground.due import DueLine, DueSource
from partners.ground.models import Event
from partners.ground.plain import PlainError
from partners.ground.undo import CannotUndo, undo
from partners.program import actions as program_actions
from partners.program.desk import Desk
from partners.program.keepers_changes import may_take_back
from partners.program.models import Program
from partners.school import actions as school_actions
from partners.school.calendar import together
from partners.school.clock import calendars
from partners.school.closures import summer_after, summer_before
from partners.school.models import ClosureKind, School, SchoolDays

MOVE, NOT_THIS_MONTH = "move", "not_this_month"
MOVES = (MOVE, NOT_THIS_MONTH)
NAMED = 3
OF_THE_DISTRICT = (
    "legal_name", "city", "state", "postal_code", "ein", "governmental", "tax_line", "receipts_by", "tax_rate",
    "tax_per_item", "claim_days", "repay_days", "asking_needs_approval", "weekdays",
)  # fmt: skip


class CannotSettle(Exception):
    """The line cannot be settled that way; the message says why."""


@dataclass(frozen=True)
class Chosen:
    """A due line that is to be settled: where it comes from, how it is shown, the words on the button."""

    source: DueSource
    line: DueLine
    label: str

    @property
    def heading(self) -> str:
        return (
            f"{self.line.who}, {self.line.what}"
            if self.line.who and self.line.what
            else self.line.who or self.line.what
        )

    def takes(self, act: str) -> bool:
        """Whether the act is a way to settle it."""
        return code_of(act) in self.source.settle


def settle(*, desk: Desk, chosen: Sequence[Chosen], act: str, label: str, to: date | None = None) -> Event:
    """Carry out one act on all the chosen lines, as one event that remembers them; it has no pk if nothing changed.

    Settling one line may settle another of them, which is remembered with it. Raises CannotSettle.
    """
    days = days_for(desk, chosen, act, to)
    code = code_of(act)
    if not all(one.takes(act) for one in chosen):
        raise CannotSettle(no_way(chosen, act, label))
    with change(desk, gettext_noop("%(what)s: %(label)s"), what=together_as(chosen), label=label) as book:
        kept: list[dict[str, Any]] = []
        for one in chosen:
            row = one.source.rows(desk).filter(pk=one.line.pk).first()
            if row is not None:
                extra = {"due": days[one.line.key]} if days else {}
                one.source.settle[code](desk=desk, row=row, day=desk.day, **extra)
            if row is not None or kept:
                kept.append(remembered(one, days.get(one.line.key)))
        book.event.facts["lines"] = kept
    return book.event


def no_way(chosen: Sequence[Chosen], act: str, label: str) -> str:
    """Which of the lines the act does not settle; they stay as they are."""
    unfit = [one.heading for one in chosen if not one.takes(act)]
    named = unfit[:NAMED] + ([_("%(count)d more") % {"count": len(unfit) - NAMED}] if len(unfit) > NAMED else [])
    words = ngettext(
        "“%(label)s” is no way to settle %(lines)s; it stays as it is.",
        "“%(label)s” is no way to settle %(lines)s; they stay as they are.",
        len(unfit),
    )
    return words % {"label": label, "lines": get_text_list(named, _("and"))}


def code_of(act: str) -> str:
    """The verb behind a button: "not this month" is a move to a day that is worked out."""
    return MOVE if act in MOVES else act


def days_for(desk: Desk, chosen: Sequence[Chosen], act: str, to: date | None) -> dict[str, date]:
    """To which day each line moves, by its key; nothing where nothing moves. Raises CannotSettle."""
    if act == MOVE:
        if to is None:
            raise CannotSettle(_("Say to which day."))
        if to <= desk.day:
            raise CannotSettle(_("That day is not ahead. Choose a later one."))
        return {one.line.key: to for one in chosen}
    if act == NOT_THIS_MONTH:
        known = calendars(desk.program)
        every = together(known.values())
        first = next_month(desk.day)
        return {one.line.key: known.get(one.line.school_id or 0, every).on_or_after(first) for one in chosen}
    return {}


def together_as(chosen: Sequence[Chosen]) -> str:
    first = chosen[0].heading
    return first if len(chosen) == 1 else _("%(first)s and %(more)d more") % {"first": first, "more": len(chosen) - 1}


def remembered(one: Chosen, moved_to: date | None) -> dict[str, Any]:
    """What the review shows of a line that was settled today, when its row says it no longer."""
    line = one.line
    moved = _("Moved to %(day)s") % {"day": date_format(moved_to, "MONTH_DAY_FORMAT")} if moved_to else ""
    return {
        "key": line.key,
        "hand": str(line.hand),
        "who": line.who,
        "who_url": line.who_url,
        "what": line.what,
        "verb": str(line.alone or line.verb),
        "due": line.due.isoformat(),
        "school": line.school,
        "school_id": line.school_id,
        "settled": moved or one.label,
        "moved": bool(moved),
    }


def next_month(day: date) -> date:
    """The first day of the next month."""
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


def begin_year(*, desk: Desk, schools: Sequence[School], first: date, last: date, day_one: bool) -> int:
    """First and last day of a school year; with `day_one` the cycle begins with it. Returns how many dates moved.

    The summers around it are closed, too, where no other year lies that would do it.
    """
    title = gettext_noop("School year from %(first)s entered: %(schools)s")
    with change(desk, title, first=first, schools=", ".join(one.name for one in schools)) as book:
        for school in schools:
            summers_around(desk, school, first, last)
            school_actions.add_days(desk=desk, school=school, first=first, last=last, kind=ClosureKind.YEAR)
            if day_one and school.cycle_length:
                school_actions.edit_school(desk=desk, school=school, cycle_from=first)
            book.about(school)
        return redate(book, desk)


def summers_around(desk: Desk, school: School, first: date, last: date) -> None:
    """Ten weeks before the first year and after the latest; a summer that reaches into this one ends before it."""
    years, title = school.school_days.filter(kind=ClosureKind.YEAR), _("Summer")
    summers = school.school_days.filter(kind=ClosureKind.CLOSED, title=title)
    for summer in summers.filter(first__lte=last, last__gte=first):
        school_actions.remove_days(desk=desk, days=summer)
        if summer.first < first:
            before = first - timedelta(days=1)
            school_actions.add_days(desk=desk, school=school, first=summer.first, last=before, title=title)
    new = [] if years.exists() else [summer_before(first)]
    new += [] if years.filter(first__gt=last).exists() else [summer_after(last)]
    for begins, ends in new:
        if not summers.filter(first__lte=ends, last__gte=begins).exists():
            school_actions.add_days(desk=desk, school=school, first=begins, last=ends, title=title)


def open_days(*, desk: Desk, days: SchoolDays) -> int:
    """Take a stretch out of the calendar. Returns how many dates moved."""
    with change(desk, gettext_noop("Calendar of %(school)s changed"), school=days.school) as book:
        school_actions.remove_days(desk=desk, days=days)
        book.about(days.school)
        return redate(book, desk)


def add_school(*, desk: Desk, name: str, district_of: School | None = None, **values: Any) -> tuple[School, int]:
    """One school more can open days on which all others are closed. Returns it and how many dates moved.

    What a district says once, and the calendar, come from another of its schools.
    """
    with change(desk, gettext_noop("School %(name)s added"), name=name) as book:
        if district_of is not None:
            values |= {name: getattr(district_of, name) for name in OF_THE_DISTRICT}
        school = school_actions.add_school(desk=desk, name=name, **values)
        if district_of is not None:
            school_actions.same_days(desk=desk, school=school, other=district_of)
        return school, redate(book, desk)


def edit_school(*, desk: Desk, school: School, seen: int | None = None, **values: Any) -> int:
    """Other weekdays are another calendar. Returns how many dates moved."""
    with change(desk, gettext_noop("School %(name)s changed"), name=school.name) as book:
        school_actions.edit_school(desk=desk, school=school, seen=seen, **values)
        return redate(book, desk)


def edit_program(*, desk: Desk, seen: int | None = None, **values: Any) -> tuple[Program, int]:
    """Days that were counted with the program's figures follow them. Returns it and how many dates moved."""
    with change(desk, gettext_noop("Settings of the program changed")) as book:
        program = program_actions.edit_program(desk=desk, seen=seen, **values)
        return program, redate(book, desk)


def take_back(*, desk: Desk, event: Event) -> Event:
    """Undo a change, and count anew what depends on it: calendars and later words may have changed since.

    Raises CannotUndo with the reason, and then changes nothing.
    """

    if not may_take_back(desk, event):
        raise CannotUndo(_("Only who keeps the book takes this back."))

    def count_anew(book: Change) -> None:
        redate(book, desk, {item["model"] for item in event.changes})
        hear_again(book, desk, event)
        if any(item["model"] == "membership" for item in event.changes):
            program_actions.stay_kept(desk)

    try:
        return undo(desk, event, then=count_anew)
    except PlainError as error:
        raise CannotUndo(gettext(error.sentence) % error.facts) from error
