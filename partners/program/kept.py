"""Forms that were filled in on a phone without a signal and are sent later: whose they are, and of which day.

What sends them (static/partners/kept.js) says so by headers. A form of another site cannot set these, and they open
nothing that the person could not open anyway.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.utils.dateparse import parse_date

USER, PROGRAM, DAY = "Kept-User", "Kept-Program", "Kept-Day"
# A form that waited longer is taken as one of today.
LONGEST_WAIT = timedelta(days=60)


@dataclass(frozen=True)
class Kept:
    """The numbers are as they were sent: they may name nobody."""

    user: str
    program: str
    day: date | None = None

    def belongs_to(self, user: Any) -> bool:
        return self.user == str(user.pk)

    @property
    def program_pk(self) -> int:
        """0, which no program has, where it is no number."""
        text = self.program
        return int(text) if text.isascii() and text.isdecimal() and len(text) < 19 else 0

    def as_of(self, today: date) -> date:
        """The day that counts as today: the one on which the form was filled in, where that can be."""
        return self.day if self.day is not None and today - LONGEST_WAIT <= self.day <= today else today


def kept_form(headers: Any) -> Kept | None:
    """What the headers say; None for a form that comes straight from its page."""
    if USER not in headers and PROGRAM not in headers:
        return None
    return Kept(headers.get(USER, ""), headers.get(PROGRAM, ""), day_of(headers.get(DAY, "")))


def day_of(text: str) -> date | None:
    try:
        return parse_date(text[:10])
    except ValueError:
        return None
