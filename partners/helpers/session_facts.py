"""What a session keeps ready: its days to confirm, how many said yes, what is still owed."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from partners.helpers.session_models import Reply, Session
from partners.school.calendar import NoSchoolDay, SchoolCalendar

DAY, WEEK = timedelta(days=1), timedelta(days=7)
# The longest that schools close within a year, a winter recess, is shorter.
FAR = timedelta(days=21)


def confirm_days(calendar: SchoolCalendar, day: date) -> tuple[date, date]:
    """The school days on which a session is confirmed: a week before or earlier, and the last one before it.

    Where no school day is near, as in the summer, it is the plain day.
    """
    return _near(calendar, day - WEEK), _near(calendar, day - DAY)


def _near(calendar: SchoolCalendar, day: date) -> date:
    try:
        near = calendar.on_or_before(day)
    except NoSchoolDay:
        return day
    return near if day - near <= FAR else day


def days_to_confirm(calendar: SchoolCalendar, day: date, today: date) -> dict[str, date | None]:
    """`week_due` and `day_due` as they are stored when the session is planned: empty where they are past already."""
    week, before = confirm_days(calendar, day)
    return {"week_due": week if week > today else None, "day_due": before if before >= today else None}


def days_moved(session: Session, calendar: SchoolCalendar) -> dict[str, date | None]:
    """The same days where the calendar is another; what was empty stays so."""
    week, before = confirm_days(calendar, session.day)
    days = {"week_due": week if session.week_due else None, "day_due": before if session.day_due else None}
    first = days["week_due"] or days["day_due"] or session.day
    return {**days, "short_due": first if session.short_due else None}


def short_due(session: Session, said_yes: int) -> date | None:
    """From when too few helpers is a thing to do; None while there are enough, and once it is over or called off."""
    if session.called_off_on is not None or session.counted_on is not None or said_yes >= session.needed:
        return None
    return session.week_due or session.day_due or session.day


def kept_ready(session: Session) -> dict[str, Any]:
    """The stored columns that follow from the session and its helpers, worked out anew."""
    turns = list(session.turns.all())
    said_yes = sum(turn.reply == Reply.YES for turn in turns)
    unthanked = any(turn.came and turn.thanked_on is None for turn in turns)
    return {
        "said_yes": said_yes,
        "short_due": short_due(session, said_yes),
        "thanks_due": session.day if session.counted_on is not None and unthanked else None,
    }
