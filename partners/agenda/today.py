"""What Today shows: one sentence, what runs out, up to seven things, what to bring, the week in five lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from operator import itemgetter
from typing import Any

from django.urls import reverse
from django.utils.formats import time_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.agenda.errands import errands, lines_of
from partners.agenda.lines import LASTING, RUNNING_OUT, Stretch, due_in_stretches
from partners.agenda.shown import show_errands
from partners.ground.due import DueLine, Hand
from partners.program.desk import Desk
from partners.program.last_copy import is_overdue
from partners.school.approval_models import ApprovalFor
from partners.school.calendar import SchoolCalendar
from partners.school.clock import calendars, cycle_day_on
from partners.school.models import ClosureKind

THINGS = 7
CAP = 100
WEEK_LINES = 5
SESSIONS = 3
SUMMER = (6, 7, 8, 9)
SATURDAY = 5
# Of what hands make: what begins, comes to us, or is taken down is nothing to bring.
NOT_BROUGHT = {"exchanges.start", "exchanges.plain", "exchanges.take-down"}


@dataclass(frozen=True)
class Entry:
    """A line of the week, or a thing to bring."""

    words: str
    day: date | None = None
    url: str = ""
    why: str = ""

    @property
    def what(self) -> str:
        return self.words


def today(desk: Desk) -> dict[str, Any]:
    """The context of Today, in about as many queries as there are sources, at any size of the book."""
    day = desk.day
    before, ahead = Stretch(day - timedelta(days=1), CAP), Stretch(end_of_week(day), WEEK_LINES * 6)
    # Apart, so that what runs out today is found however much else is due.
    out = due_in_stretches(desk, [before, Stretch(day, CAP), ahead], sources=RUNNING_OUT)
    lasting = due_in_stretches(desk, [before, Stretch(day, CAP, if_room=True), ahead], sources=LASTING)
    pages = zip(out, lasting, strict=True)
    late, due_today, coming = (sorted([*ours, *others], key=itemgetter(0)) for ours, others in pages)
    over = [one for one in out[1] if is_over(one.line(day))]
    out_ranks = {one.rank for one in over}
    waiting = [*late, *due_today][:CAP]
    first = errands(desk, over, len(over))
    then = errands(desk, (one for one in waiting if one.rank not in out_ranks), THINGS)
    known, year = calendars(desk.program), school_year(desk)
    shown = show_errands(desk, [*first, *then], known, cut=len(waiting) == CAP)
    lines = lines_of([*first, *then])
    return {
        "day": day,
        "sentence": sentence(desk, None if year and between_years(desk) else known),
        "runs_out": sorted(shown[: len(first)], key=lambda line: line.hour or time.max),
        "lines": shown[len(first) :],
        "first_steps": [] if shown or not desk.writes else first_steps(desk),
        "school_year": year if desk.writes else None,
        "more": max(0, len(waiting) - len(lines)),
        "more_at_least": len(waiting) == CAP,
        "bring": bring(desk, lines),
        "week": week([one.line(day) for one in coming[: WEEK_LINES * 6]]),
        "copy_overdue": desk.keeps and is_overdue(day, desk.program.created_at.date()),
    }


def is_over(line: DueLine) -> bool:
    """Whether there is no tomorrow for what is due today: it has its hour, or somebody stands there for it."""
    return line.hour is not None or line.hand in (Hand.COLLECT, Hand.MAKE)


def first_steps(desk: Desk) -> list[Entry]:
    """What to do in a book without partners, but for what is done already; later only the yes that asking needs."""
    if desk.partners.exists():
        return [step for step in (yes_to_asking(desk),) if step]
    steps, needed = [], desk.needs.exists()
    if not needed:
        need = _("Write down one thing you need, and for how many students")
        steps.append(Entry(need, url=reverse("wish_list:need-new"), why=_("it stands on every sheet you leave")))
    if not desk.classes.exists():
        schools = _("Your schools: calendar, classes, and who must say yes")
        steps.append(Entry(schools, url=reverse("school:school-list"), why=_("ask the office once, before any shop")))
    else:
        steps += [step for step in (school_year(desk), yes_to_asking(desk)) if step]
    if needed:
        sheet = reverse("outreach:document-prepare", args=["leave-behind", 0])
        steps.append(Entry(_("Print a sheet to take along"), url=sheet, why=_("the principal wants to see it, too")))
    visit = _("Go to a shop near the school, then log the visit here")
    return [*steps, Entry(visit, url=reverse("visits:visit-new"), why=_("the place is written down with it"))]


def school_year(desk: Desk) -> Entry | None:
    """In summer and early autumn: the schools of which nobody said yet when they begin."""
    if desk.day.month not in SUMMER:
        return None
    known = desk.program.school_days.filter(kind=ClosureKind.YEAR, last__gte=desk.day)
    schools = list(desk.schools.exclude(pk__in=known.values("school_id")))
    if not schools:
        return None
    url = reverse("school:day-new", args=[schools[0].pk]) + "?kind=year"
    names = get_text_list([school.name for school in schools], _("and"))
    asked = _("When does school begin and end at %(schools)s?") % {"schools": names}
    return Entry(asked, url=url, why=_("until then, all weekdays that are not closed count as school days"))


def between_years(desk: Desk) -> bool:
    return desk.program.school_days.filter(kind=ClosureKind.YEAR, last__lt=desk.day).exists()


def yes_to_asking(desk: Desk) -> Entry | None:
    """A school for which nobody may be asked yet, because no yes is recorded."""
    given = desk.approvals.valid_on(desk.day, ApprovalFor.ASKING).values("school_id")
    school = desk.schools.filter(asking_needs_approval=True).exclude(pk__in=given).first()
    if school is None:
        return None
    url = school.get_absolute_url() + "#approvals"
    asked = _("Record the yes to asking at %(school)s") % {"school": school}
    return Entry(asked, url=url, why=_("or that nobody has to say yes there"))


def end_of_week(day: date) -> date:
    """The Sunday of this week; from Friday on, of the next."""
    return day + timedelta(days=6 - day.weekday() + (7 if day.weekday() >= 4 else 0))


def sentence(desk: Desk, known: Mapping[int, SchoolCalendar] | None) -> str:
    """Which cycle day it is where, and which helpers come when; nothing where there is neither, as at weekends.

    Without `known` no cycle day is told: one year is over, and nobody entered the next.
    """
    days = cycle_day_on(desk.program, desk.day, desk.school_ids, known) if known is not None else []
    words = _("day %(number)d at %(school)s")
    parts = [words % {"number": number, "school": school} for school, number in days if number]
    closed = [school for school, number in days if number is None]
    if closed and desk.day.weekday() < SATURDAY:
        everywhere = len(closed) == len(days)
        where = _("any of your schools") if everywhere and closed[1:] else get_text_list(closed, _("and"))
        parts.append(_("no school at %(schools)s") % {"schools": where})
    parts += helpers_today(desk)
    return _("Today: %(what)s.") % {"what": get_text_list(parts, _("and"))} if parts else ""


def helpers_today(desk: Desk) -> list[str]:
    """ "2 helpers at 1 p.m. for hanging a show (the gym)"; only those who said yes."""
    coming = desk.sessions.filter(day=desk.day, called_off_on=None, said_yes__gt=0).order_by("starts", "pk")
    return [
        ngettext(
            "%(count)d helper at %(hour)s for %(job)s (%(place)s)",
            "%(count)d helpers at %(hour)s for %(job)s (%(place)s)",
            one.said_yes,
        )
        % {"count": one.said_yes, "hour": time_format(one.starts), "job": one.get_job_display(), "place": one.place}
        for one in coming[:SESSIONS]
    ]


def bring(desk: Desk, lines: Sequence[DueLine]) -> list[Entry]:
    """What to have in the bag: sheets for today's outing, a bag where something is collected, what we promised.

    A guest carries none.
    """
    if not desk.writes:
        return []
    things = []
    outing = desk.outings.filter(day=desk.day).order_by("pk").first()
    if outing is not None:
        stops = outing.stops.count()
        words = ngettext("the sheet for %(count)d place", "sheets for %(count)d places", stops) % {"count": stops}
        things.append(Entry(words, url=outing.get_absolute_url(), why=_("with school ID, a pen, the receipt form")))
    if any(line.hand is Hand.COLLECT and line.fetched for line in lines):
        things.append(Entry(_("a bag or box"), why=_("for what is collected")))
    made = (line for line in lines if line.hand is Hand.MAKE and line.source not in NOT_BROUGHT)
    things += [Entry(line.what, url=line.who_url, why=line.who) for line in made]
    return things


def week(lines: Sequence[DueLine]) -> list[Entry]:
    """One line a day, the first five days that have something."""
    days: dict[date, list[DueLine]] = {}
    for line in lines:
        days.setdefault(line.due, []).append(line)
    entries = []
    for day, due in list(days.items())[:WEEK_LINES]:
        known = list(dict.fromkeys(f"{line.verb} {line.who or line.what}" for line in due))
        named = known[:2]
        if len(known) > 2:
            named.append(_("%(count)d more") % {"count": len(known) - 2})
        entries.append(Entry(get_text_list(named, _("and")), day=day, url=reverse("agenda:review")))
    return entries
