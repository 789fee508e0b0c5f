"""What a member's calendar feed holds: what is due, free days, sessions, days without school.

Only what the member may open, of their schools, from a month ago to four months ahead. No notes, no phone numbers, no
names of helpers: a calendar is shown to others, and kept by who runs it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from itertools import chain
from typing import Any
from zoneinfo import ZoneInfo

from django.utils.formats import time_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from outreach.feeds.calendar import CalendarDay
from outreach.gathering.free_day import feed_day, uid_of
from partners.agenda.lines import BUT_QUIET, Place, due_lines
from partners.ground.due import DueLine
from partners.helpers.due import CLEARANCE, KIT
from partners.helpers.session_models import Session
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.school.models import ClosureKind, SchoolDays

BACK = timedelta(days=31)
AHEAD = timedelta(days=124)
MOST_DUE = 500
MOST = 200
# Their lines would name a helper.
OF_A_PERSON = frozenset({KIT, CLEARANCE})


def feed_days(desk: Desk) -> list[CalendarDay]:
    return list(chain(due(desk), free_days(desk), sessions(desk), closures(desk)))


def due(desk: Desk) -> Iterator[CalendarDay]:
    if not desk.reads(Opened.TODAY):
        return
    after = Place.through(desk.day - BACK)
    for line in due_lines(desk, until=desk.day + AHEAD, limit=MOST_DUE, after=after, sources=BUT_QUIET):
        yield due_day(desk, line)


def due_day(desk: Desk, line: DueLine) -> CalendarDay:
    told = (_("at %(hour)s") % {"hour": time_format(line.hour)} if line.hour else "", line.school)
    return CalendarDay(
        uid=uid_of(desk, line.pk, line.source),
        version=1,
        changed_at=begin_of(desk.day),
        title=due_words(line),
        first_on=line.due,
        told=tuple(one for one in told if one),
    )


def due_words(line: DueLine) -> str:
    """ "Collect from Riverbend Garden Center: 60 plain pots"."""
    who = _("a helper") if line.source in OF_A_PERSON else line.who
    what = str(line.what)
    if not who:
        return f"{line.verb} {what}".strip()
    return f"{line.verb} {who}: {what}" if what else f"{line.verb} {who}"


def begin_of(day: date) -> datetime:
    """A due line is no row and has no time of its last change: it is told as of the day on which it is worked out."""
    return datetime.combine(day, time.min, UTC)


def free_days(desk: Desk) -> Iterator[CalendarDay]:
    if desk.reads(Opened.MONEY):
        coming = desk.occasions.filter(next_on__isnull=False, ended_on__isnull=True).select_related("partner")
        yield from (feed_day(desk, occasion) for occasion in coming.order_by("next_on", "pk")[:MOST])


def sessions(desk: Desk) -> Iterator[CalendarDay]:
    if desk.reads(Opened.HELPERS):
        rows = desk.sessions.filter(called_off_on=None, **near(desk, "day")).select_related("school")
        yield from (session_day(desk, session) for session in rows.order_by("day", "pk")[:MOST])


def session_day(desk: Desk, session: Session) -> CalendarDay:
    zone = ZoneInfo(desk.program.time_zone)
    yes = ngettext("%(count)d helper said yes", "%(count)d helpers said yes", session.said_yes)
    return CalendarDay(
        uid=uid_of(desk, session.pk, "session"),
        version=session.version,
        changed_at=session.updated_at,
        title=_("Helpers: %(job)s") % {"job": session.get_job_display()},
        first_on=session.day,
        hours=(datetime.combine(session.day, session.starts, zone), datetime.combine(session.day, session.ends, zone)),
        place=", ".join(filter(None, (session.place, session.school.name if session.school else ""))),
        told=(yes % {"count": session.said_yes},),
    )


def closures(desk: Desk) -> Iterator[CalendarDay]:
    rows = desk.school_days.exclude(kind=ClosureKind.YEAR).select_related("school")
    rows = rows.filter(last__gte=desk.day - BACK, first__lte=desk.day + AHEAD)
    yield from (closure_day(desk, days) for days in rows.order_by("first", "pk")[:MOST])


def closure_day(desk: Desk, days: SchoolDays) -> CalendarDay:
    facts = {"school": days.school.name, "title": days.title or days.get_kind_display()}
    return CalendarDay(
        uid=uid_of(desk, days.pk, "closure"),
        version=days.version,
        changed_at=days.updated_at,
        title=_("No school at %(school)s: %(title)s") % facts,
        first_on=days.first,
        last_on=days.last,
    )


def near(desk: Desk, column: str) -> dict[str, Any]:
    return {f"{column}__gte": desk.day - BACK, f"{column}__lte": desk.day + AHEAD}
