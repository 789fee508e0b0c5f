"""The rows behind a number as a list."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext_lazy as _

from partners.ground.due import Words
from partners.ground.tables import BARE, DAY, BookTable
from partners.program.models import Opened
from partners.year.rows import Line


class Kind(Protocol):
    """What the list is called, what it says of a row, and whether a row's page is there to change it."""

    @property
    def title(self) -> Words: ...
    @property
    def edits(self) -> bool: ...
    @property
    def named(self) -> bool: ...
    @property
    def line(self) -> Callable[[Any], Line]: ...


class RowsTable(BookTable):
    """Give it the kind of rows as `kind` and the desk as `desk`: links lead only where the person may go."""

    day = django_tables2.Column(verbose_name=_("Day"), accessor="pk", attrs=DAY)
    what = django_tables2.Column(verbose_name=_("What"), accessor="pk", attrs=BARE)
    partner = django_tables2.Column(verbose_name=_("Partner"), accessor="pk", attrs=BARE)
    state = django_tables2.Column(verbose_name=_("How it stands"), accessor="pk", attrs=BARE)

    class Meta(BookTable.Meta):
        empty_text = _("Nothing of this kind is in this year.")

    def __init__(self, *args: Any, kind: Kind, desk: Any, **kwargs: Any) -> None:
        self.kind, self.desk, self.caption = kind, desk, kind.title
        super().__init__(*args, exclude=("day", "partner") if kind.named else (), **kwargs)

    def line(self, record: Any) -> Line:
        return self.kind.line(record)

    def render_day(self, record: Any) -> str:
        day = self.line(record).day
        return date_format(day, "SHORT_DATE_FORMAT") if day else ""

    def render_what(self, record: Any) -> str:
        line = self.line(record)
        leads = line.url and (self.desk.writes or not self.kind.edits)
        return format_html('<a href="{}">{}</a>', line.url, line.what) if leads else line.what

    def render_partner(self, record: Any) -> str:
        partner = self.line(record).partner
        url = getattr(partner, "get_absolute_url", None)
        if url is None or not self.desk.reads(Opened.PARTNERS):
            return str(partner or "")
        return format_html('<a href="{}">{}</a>', url(), partner)

    def render_state(self, record: Any) -> str:
        return self.line(record).state
