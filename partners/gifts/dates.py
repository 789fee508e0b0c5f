"""The days that follow from a gift or a promise, counted in school days. Pure; figures and calendar come in."""

from __future__ import annotations

from datetime import date, timedelta

from partners.school.calendar import SchoolCalendar

ACCEPT_WITHIN = 10
HAND_IN_WITHIN = 1
HALF_A_YEAR = 182


def thanks_dates(calendar: SchoolCalendar, base: date, within: int, late: int) -> tuple[date, date]:
    """(due, late from): `within` school days after `base`, and the first school day after `late` of them."""
    return calendar.add(base, within), calendar.add(base, late + 1)


def families_due(calendar: SchoolCalendar, day: date, within: int) -> date:
    """By when all families of a school are thanked for what came on `day`: as soon as anybody else who gave."""
    return calendar.add(day, within)


def families_since(day: date) -> date:
    """The first day by which families were to be thanked that is still due by itself on `day`: half a year back.

    A notice for what came last school year reaches other families than those who gave, and tells them of things they
    no longer know of. So it is offered where families are thanked, and asked for by nobody (common practice). Gifts
    of June, whose day comes after the summer, are due until March. A partner is thanked however late it is, since
    they are the same.
    """
    return day - timedelta(days=HALF_A_YEAR)


def accept_due(calendar: SchoolCalendar, day: date) -> date:
    """By when somebody above the threshold should have accepted a gift that came on `day` (common practice)."""
    return calendar.add(day, ACCEPT_WITHIN)


def hand_in_due(calendar: SchoolCalendar, day: date) -> date:
    """By when money goes to the office: cash does not stay in a classroom overnight (common practice)."""
    return calendar.add(day, HAND_IN_WITHIN)
