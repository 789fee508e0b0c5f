"""The last day on which to ask for a yes, or to sign, where a procedure wants so many school days ahead."""

from __future__ import annotations

from datetime import date

from partners.school.calendar import NoSchoolDay, SchoolCalendar


def days_before(calendar: SchoolCalendar, day: date, count: int) -> date:
    """`count` school days before the day; the day itself where the calendar has none within reach.

    >>> labor_day = date(2026, 9, 7)
    >>> days_before(SchoolCalendar(closed=[labor_day]), date(2026, 9, 14), 5)
    datetime.date(2026, 9, 4)
    >>> days_before(SchoolCalendar(weekdays=[]), date(2026, 9, 14), 5)
    datetime.date(2026, 9, 14)
    """
    try:
        return calendar.add(day, -count)
    except NoSchoolDay:
        return day
