"""When a free day comes back, and when the next time is, in words."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from django.utils.dates import MONTHS, WEEKDAYS
from django.utils.formats import time_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.recurrence import LAST, Every, Rhythm, rhythm_of
from partners.ground.days import spelled

EVERY = [
    (Every.ONCE, gettext_lazy("Once")),
    (Every.YEAR_WEEKDAY, gettext_lazy("Every year, such as the third Thursday of July")),
    (Every.YEAR_DATE, gettext_lazy("Every year on the same date")),
    (Every.MONTH_WEEKDAY, gettext_lazy("Every month, such as the first Saturday")),
    (Every.TWO_WEEKS, gettext_lazy("Every two weeks")),
    (Every.WEEK, gettext_lazy("Every week")),
]
WHICH = [
    (1, gettext_lazy("first")),
    (2, gettext_lazy("second")),
    (3, gettext_lazy("third")),
    (4, gettext_lazy("fourth")),
    (LAST, gettext_lazy("last")),
]


def rule_words(rule: str) -> str:
    """ "every year on the third Thursday of July"."""
    rhythm = rhythm_of(rule)
    return rhythm_words(rhythm) if rhythm else _("by a rule of its own")


def rhythm_words(rhythm: Rhythm) -> str:
    told = {
        "which": dict(WHICH).get(rhythm.which, rhythm.which),
        "weekday": WEEKDAYS[rhythm.weekday],
        "month": MONTHS.get(rhythm.month, ""),
        "day": rhythm.day,
    }
    if rhythm.every == Every.YEAR_DATE and (rhythm.month, rhythm.day) == (2, 29):
        return _("on February 29, so in leap years only")
    return _words()[rhythm.every] % told


def _words() -> dict[str, str]:
    return {
        Every.ONCE: _("once"),
        Every.YEAR_WEEKDAY: _("every year on the %(which)s %(weekday)s of %(month)s"),
        Every.YEAR_DATE: _("every year on %(month)s %(day)s"),
        Every.MONTH_WEEKDAY: _("every %(which)s %(weekday)s of the month"),
        Every.TWO_WEEKS: _("every two weeks on %(weekday)s"),
        Every.WEEK: _("every week on %(weekday)s"),
    }


def hours_words(opens_at: time | None, closes_at: time | None) -> str:
    """ "9 a.m. to noon", "from 9 a.m.", "until noon"; empty where no hour is known."""
    opens, closes = (_hour(hour) for hour in (opens_at, closes_at))
    if opens and closes:
        return _("%(opens)s to %(closes)s") % {"opens": opens, "closes": closes}
    if opens:
        return _("from %(opens)s") % {"opens": opens}
    return _("until %(closes)s") % {"closes": closes} if closes else ""


def _hour(hour: time | None) -> str:
    """Kept together on a line."""
    return time_format(hour).replace(" ", "\N{NO-BREAK SPACE}") if hour else ""


def to_take(one: dict[str, Any]) -> str:
    """What to have at hand on the day, from the columns bring, proof and limits."""
    parts = [
        words % {"what": one[name]}
        for name, words in (
            ("bring", _("bring %(what)s")),
            ("proof", _("they want to see %(what)s")),
            ("limits", _("free: %(what)s")),
        )
        if one[name]
    ]
    return "; ".join(parts)


def day_words(day: date) -> str:
    return spelled(day, "MONTH_DAY_FORMAT")
