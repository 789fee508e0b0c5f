"""The hints on busy times in words, for one partner on one day."""

from __future__ import annotations

from datetime import date

from django.utils.formats import time_format
from django.utils.translation import gettext as _

from partners.asking.quiet import HINTS, avoid, next_good_day
from partners.asking.words import hint
from partners.directory.models import Partner
from partners.school.calendar import SchoolCalendar


def busy_all_day(partner: Partner, day: date) -> list[str]:
    """What makes the whole day a bad one to go there."""
    return [hint(code) for code in avoid(partner.business_kind, day)]


def when_to_go(partner: Partner, day: date) -> str:
    """The partner's own best time where it is known, else the hours to stay away; empty when there is no hint."""
    if partner.best_time:
        return _("Best time: %(time)s.") % {"time": partner.best_time}
    parts = []
    for busy in HINTS.get(partner.business_kind, ()):
        if not busy.on(day):
            continue
        words = hint(busy.code)
        if busy.start and busy.end:
            hours = {"start": _hour(busy.start), "end": _hour(busy.end), "why": words}
            words = _("not %(start)s to %(end)s (%(why)s)") % hours
        elif busy.start:
            words = _("not after %(start)s (%(why)s)") % {"start": _hour(busy.start), "why": words}
        else:
            words = _("better another day: %(why)s") % {"why": words}
        parts.append(words)
    return _("Hint: %(parts)s.") % {"parts": _("; ").join(parts)} if parts else ""


def good_day(partner: Partner, start: date, calendar: SchoolCalendar) -> date | None:
    """The first quiet school day from `start` on, Tuesday to Thursday."""
    return next_good_day(partner.business_kind, start, calendar)


def _hour(at: object) -> str:
    return time_format(at, "TIME_FORMAT")  # type: ignore[arg-type]
