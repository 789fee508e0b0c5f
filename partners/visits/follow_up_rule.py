"""When to come back after an ask, when to let it rest, and when to ask again.

Follow up once, once more, then stop: "check next week" again and again is a polite no. All figures are common practice
and can be set; days to come back land on school days.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from partners.ground.months import add_months, same_month_next_year
from partners.school.calendar import SchoolCalendar


@dataclass(frozen=True)
class FollowUpFigures:
    """Days to the first follow-up and from there to the last; weeks to ask earlier after a no; months after a gift."""

    first_days: int = 7
    last_days: int = 14
    earlier_weeks_least: int = 4
    earlier_weeks_most: int = 6
    months_after_gift: int = 12


DEFAULTS = FollowUpFigures()


@dataclass(frozen=True)
class NextTime:
    """After a no: the rest, and the days `ask_from` through `ask_by` of next year, earlier than this year's ask."""

    rest_until: date
    ask_from: date
    ask_by: date


def first_follow_up(
    visited_on: date, calendar: SchoolCalendar, named_day: date | None = None, figures: FollowUpFigures = DEFAULTS
) -> date:
    """The day they named, else so many days after the visit; moved on to a school day. Raises NoSchoolDay.

    Raises ValueError for a named day that is not after the visit.
    """
    if named_day is not None and named_day <= visited_on:
        raise ValueError("The day to come back lies after the visit.")
    return calendar.on_or_after(named_day or visited_on + timedelta(days=figures.first_days))


def last_follow_up(first_done_on: date, calendar: SchoolCalendar, figures: FollowUpFigures = DEFAULTS) -> date:
    """So many days after the first was done (not after it was due), moved on to a school day. Raises NoSchoolDay."""
    return calendar.on_or_after(first_done_on + timedelta(days=figures.last_days))


def rest_after_silence(asked_on: date) -> date:
    """No reply to the last follow-up: the first day of the month of the ask, one year later."""
    return same_month_next_year(asked_on)


def after_no(asked_on: date, figures: FollowUpFigures = DEFAULTS) -> NextTime:
    """A no rests as silence does, and next year's ask comes four to six weeks earlier in the year than this one did."""
    same_day = add_months(asked_on, 12)
    return NextTime(
        rest_until=same_month_next_year(asked_on),
        ask_from=same_day - timedelta(weeks=figures.earlier_weeks_most),
        ask_by=same_day - timedelta(weeks=figures.earlier_weeks_least),
    )


def rest_after_gift(given_on: date, figures: FollowUpFigures = DEFAULTS) -> date:
    """After a yes: the first day on which we may ask again, counted from the day the gift came."""
    return add_months(given_on, figures.months_after_gift)
