"""Gifts as lists: what came from whom, and what families gave as counts."""

from __future__ import annotations

from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.gifts.models import Gift, Source
from partners.ground.tables import BARE, BRIEF, DAY, NUMBER, BookTable


class GiftTable(BookTable):
    """Sorted by the day, which an index holds."""

    day = django_tables2.Column(verbose_name=_("Came on"), orderable=True, order_by=("day", "pk"), attrs=DAY)
    what = django_tables2.Column(verbose_name=_("What"), accessor="pk", attrs=BARE)
    giver = django_tables2.Column(verbose_name=_("From"), accessor="pk", attrs=BRIEF)
    form = django_tables2.Column(verbose_name=_("Kind"), attrs=BARE)
    school = django_tables2.Column(verbose_name=_("School"), default="", attrs=BARE)
    thanked = django_tables2.Column(verbose_name=_("Thanked"), accessor="pk", attrs=BRIEF)

    caption = _("Gifts")
    counts = True

    class Meta(BookTable.Meta):
        empty_text = _("No gift is found.")

    def render_day(self, value: Any) -> str:
        return date_format(value, "SHORT_DATE_FORMAT")

    def render_what(self, record: Gift) -> str:
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), record.what)

    def render_giver(self, record: Gift) -> str:
        return record.giver

    def render_thanked(self, record: Gift) -> str:
        """Thanks are a row of their own, and only where a partner gave."""
        if record.source != Source.PARTNER:
            return ""
        thanks = getattr(record, "thanks", None)
        if thanks is None:
            return ""
        if thanks.done_on is not None:
            return date_format(thanks.done_on, "SHORT_DATE_FORMAT")
        return gettext("owed by %(day)s") % {"day": date_format(thanks.due, "SHORT_DATE_FORMAT")}


class FamilyTable(BookTable):
    """Counts only: nobody is named, and nothing says who gave."""

    school = django_tables2.Column(verbose_name=_("School"), default=_("no school named"))
    item = django_tables2.Column(verbose_name=_("What"))
    count = django_tables2.Column(verbose_name=_("How many"), attrs=NUMBER, default="")
    times = django_tables2.Column(verbose_name=_("How often"), attrs=NUMBER)

    caption = _("What families gave")

    class Meta(BookTable.Meta):
        empty_text = _("Families gave nothing in this time.")
