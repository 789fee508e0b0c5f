"""Days in words, each worked out once: half of a long list's time would go into writing the same days."""

from __future__ import annotations

from datetime import date, time
from functools import lru_cache
from typing import Any

from django.utils.formats import date_format, time_format
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from partners.ground.reader import reader

KEPT = 4096


def spelled(day: date, style: str) -> str:
    """What `date_format` gives: the day in a style like "MONTH_DAY_FORMAT", in the reader's language."""
    return _spelled(day, style, reader().language)


def in_margin(day: date, today: date) -> SafeString:
    """The day as it stands beside a line: with its year where that is not today's, and no weekday once it is over."""
    return _in_margin(day, day.year >= today.year, day.year != today.year, reader().language)


def at_hour(hour: time) -> SafeString:
    """The hour as it stands below a day in the margin."""
    return format_html('<span class="hour">{}</span>', time_format(hour))


def when(line: Any, today: date) -> SafeString:
    """The margin of a due line: its day, and its hour where it has one."""
    day = in_margin(line["due"], today)
    return format_html("{} {}", day, at_hour(line["hour"])) if line["hour"] else day


def in_story(day: date) -> SafeString:
    """The day as it stands in the margin of a story: with its year, and no weekday."""
    return _in_margin(day, False, True, reader().language)


def in_list(day: date, today: date) -> SafeString:
    """The day in a row of a list: without its year, where that is today's."""
    return _in_margin(day, False, day.year != today.year, reader().language)


@lru_cache(KEPT)
def _spelled(day: date, style: str, language: str | None) -> str:
    return date_format(day, style)


@lru_cache(KEPT)
def _in_margin(day: date, weekday: bool, year: bool, language: str | None) -> SafeString:
    return format_html(
        '<time datetime="{}">{}<span class="day">{}</span>{}</time>',
        day.isoformat(),
        format_html('<span class="weekday">{}<span class="comma">,</span></span> ', date_format(day, "D"))
        if weekday
        else "",
        date_format(day, _("M j")),
        format_html('<span class="comma">,</span> <span class="of-year">{}</span>', day.year) if year else "",
    )
