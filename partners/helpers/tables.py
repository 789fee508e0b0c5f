"""Helpers and sessions as lists."""

from __future__ import annotations

from datetime import date
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format, time_format
from django.utils.html import format_html
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext_lazy as _

from partners.directory.tables import call_link
from partners.ground.tables import ASIDE, BARE, DAY, BookTable
from partners.helpers.models import Helper
from partners.helpers.session_models import Session
from partners.helpers.words import days_words, jobs_words

FOR_WRITERS = ("phone",)


class HelperTable(BookTable):
    """Give it the desk as `desk`; a guest sees no phone."""

    name = django_tables2.Column(verbose_name=_("Name"), orderable=True, order_by=("name_key", "pk"), empty_values=())
    jobs = django_tables2.Column(verbose_name=_("Can do"), default="", attrs=BARE)
    days = django_tables2.Column(verbose_name=_("Days"), default="", attrs=BARE)
    phone = django_tables2.Column(verbose_name=_("Phone"), default="", attrs=ASIDE)
    state = django_tables2.Column(verbose_name=_("State"), accessor="pk", attrs=BARE)

    caption = _("Helpers")

    class Meta(BookTable.Meta):
        empty_text = _("No helper is found.")

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, exclude=() if desk.writes else FOR_WRITERS, **kwargs)

    def render_name(self, record: Helper) -> str:
        name = record.name or gettext("cannot be read yet")
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), name)

    def render_jobs(self, value: Any) -> str:
        return jobs_words(value)

    def render_days(self, value: Any) -> str:
        return days_words(value, short=True)

    def render_phone(self, value: str, record: Helper) -> str:
        return call_link(value, record.name)

    def render_state(self, record: Helper) -> str:
        if record.unreadable:
            return gettext("slip cannot be read yet")
        if record.stopped_on is not None:
            return gettext("no longer helping")
        said = [] if record.first_called_on else [gettext("not yet called")]
        said.append(clearance_words(record, self.desk.day, today=True))
        return ", ".join(said)


def clearance_words(helper: Helper, day: Any, *, today: bool = False) -> str:
    """Whether the office has cleared them, on that day."""
    if not helper.cleared:
        return gettext("not cleared")
    if helper.cleared_until is None:
        return gettext("cleared")
    until = date_format(helper.cleared_until, "DATE_FORMAT")
    if helper.cleared_until < day:
        words = gettext("clearance ended %(day)s") if today else gettext("cleared only until %(day)s")
        return words % {"day": until}
    return gettext("cleared until %(day)s") % {"day": until}


class SessionTable(BookTable):
    day = django_tables2.Column(verbose_name=_("Day"), orderable=True, order_by=("day", "pk"), attrs=DAY)
    hours = django_tables2.Column(verbose_name=_("Hours"), accessor="starts", attrs=BARE)
    job = django_tables2.Column(verbose_name=_("Job"), attrs=BARE)
    place = django_tables2.Column(verbose_name=_("Place"), attrs=BARE)
    school = django_tables2.Column(verbose_name=_("School"), default="", attrs=BARE)
    state = django_tables2.Column(verbose_name=_("Helpers"), accessor="pk", attrs=BARE)

    caption = _("Sessions")

    class Meta(BookTable.Meta):
        empty_text = _("No session is found.")

    def render_day(self, record: Session) -> str:
        words = date_format(record.day, gettext("D, M j, Y"))
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), words)

    def render_hours(self, record: Session) -> str:
        return f"{time_format(record.starts)} – {time_format(record.ends)}"

    def __init__(self, *args: Any, day: date, **kwargs: Any) -> None:
        self.day = day
        super().__init__(*args, **kwargs)

    def render_state(self, record: Session) -> str:
        if record.day < self.day and record.counted_on is None and record.called_off_on is None:
            return gettext("who came is not noted yet")
        return state_words(record)


def state_words(session: Session) -> str:
    """ "2 of 4 said yes, 2 short", "called off", "3 said yes; who came is noted"."""
    if session.called_off_on is not None:
        return gettext("called off")
    counts = {"yes": session.said_yes, "needed": session.needed}
    enough = gettext("%(yes)d said yes, and %(needed)d would be enough")
    said = (enough if session.said_yes > session.needed else gettext("%(yes)d of %(needed)d said yes")) % counts
    if session.counted_on is not None:
        return gettext("who came is noted")
    short = session.needed - session.said_yes
    if short > 0:
        said += ", " + ngettext("%(count)d short", "%(count)d short", short) % {"count": short}
    return said
