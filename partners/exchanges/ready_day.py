"""Whether our side of a trade can be due on a day. Pure; the calendar comes in."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from partners.ground.plain import PlainError, gettext_noop
from partners.school.calendar import SchoolCalendar

PAST = gettext_noop("That day is past. By when is it to be ready?")
CLOSED = gettext_noop("School is closed on that day, so nobody can deliver. The last school day before it is %(day)s.")
BEYOND = gettext_noop(
    "The school year in your calendar ends on %(day)s. Choose a day until then, or enter the next school year first."
)


class NoReadyDay(PlainError):
    """Nothing can be handed over on that day."""


def check_ready(due: date, today: date, calendar: SchoolCalendar, year_ends: Sequence[date] = ()) -> None:
    """`year_ends`: the last days of the school years that were entered. Raises NoReadyDay, NoSchoolDay."""
    if due < today:
        raise NoReadyDay("past", PAST)
    if year_ends and due > max(year_ends):
        raise NoReadyDay("beyond", BEYOND, day=max(year_ends))
    if not calendar.is_school_day(due):
        raise NoReadyDay("closed", CLOSED, day=calendar.on_or_before(due))
