"""What is due on each day of three months: the calendar of the Year page, and the rows behind it."""

from __future__ import annotations

from calendar import Calendar
from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count
from django.urls import reverse
from django.utils.formats import date_format

from partners.agenda.lines import BUT_QUIET, Place, due_lines
from partners.agenda.shown import Shown, show
from partners.ground.months import add_months
from partners.program.desk import Desk

MONTHS = 3
A_DAY_HOLDS = 200


@dataclass(frozen=True, slots=True)
class Day:
    """A day of the calendar; `number` is None for one of another month, `due` how many things are due on it."""

    number: int | None
    due: int = 0
    url: str = ""
    spoken: str = ""
    is_today: bool = False


@dataclass(frozen=True, slots=True)
class Month:
    title: str
    weekdays: tuple[tuple[str, str], ...]
    weeks: tuple[tuple[Day, ...], ...]


def counts(desk: Desk, first: date, last: date) -> Counter[date]:
    """How many things are due on each day, one query for each source."""
    found: Counter[date] = Counter()
    for source in BUT_QUIET:
        name = source.date_field
        rows = source.rows(desk).filter(**{f"{name}__gte": first, f"{name}__lte": last}).order_by()
        for day, number in rows.values_list(name).annotate(number=Count("pk")):
            found[day] += number
    return found


def due_months(desk: Desk) -> list[Month]:
    first = desk.day.replace(day=1)
    last = add_months(first, MONTHS) - timedelta(days=1)
    due = counts(desk, first, last)
    return [_month(add_months(first, n), due, desk.day) for n in range(MONTHS)]


def _month(first: date, due: Counter[date], today: date) -> Month:
    # Weeks begin on Sunday, as on the calendars in the schools.
    weeks = Calendar(firstweekday=6).monthdatescalendar(first.year, first.month)
    weekdays = tuple((date_format(day, "D")[:2], date_format(day, "l")) for day in weeks[0])
    days = tuple(tuple(_day(day, first, due, today) for day in week) for week in weeks)
    return Month(date_format(first, "YEAR_MONTH_FORMAT"), weekdays, days)


def _day(day: date, first: date, due: Counter[date], today: date) -> Day:
    if day.month != first.month:
        return Day(None)
    url = f"{reverse('year:due')}?day={day.isoformat()}" if due[day] else ""
    return Day(day.day, due[day], url, date_format(day, "MONTH_DAY_FORMAT"), is_today=day == today)


def due_on(desk: Desk, day: date) -> list[Shown]:
    """What is due on one day, as the review would show it."""
    after = Place.through(day - timedelta(days=1))
    return show(desk, due_lines(desk, until=day, limit=A_DAY_HOLDS, after=after, sources=BUT_QUIET))
