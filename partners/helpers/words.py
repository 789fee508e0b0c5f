"""What a helper said, in words: jobs, days, where."""

from __future__ import annotations

from collections.abc import Iterable

from django.utils.dates import WEEKDAYS, WEEKDAYS_ABBR
from django.utils.translation import gettext as _

from partners.helpers.jobs import Job
from partners.helpers.models import Helper

LABELS = dict(Job.choices)
SCHOOL_DAYS = range(5)


def jobs_words(jobs: Iterable[str]) -> str:
    return ", ".join(str(LABELS[job]) for job in jobs if job in LABELS)


def days_words(days: Iterable[int], short: bool = False) -> str:
    """ "Monday, Wednesday"; "any day" where all five are said."""
    named = sorted({day for day in days if day in WEEKDAYS})
    if set(named) >= set(SCHOOL_DAYS):
        return _("any day")
    return ", ".join(str((WEEKDAYS_ABBR if short else WEEKDAYS)[day]) for day in named)


def where_words(helper: Helper) -> str:
    said = [
        (helper.at_school, _("at school")),
        (helper.from_home, _("from home")),
        (helper.show_day, _("on show day")),
    ]
    return ", ".join(words for is_so, words in said if is_so)
