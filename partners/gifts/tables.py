"""Gifts as lists: what came from whom, and what families gave as counts."""

from __future__ import annotations

from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.gifts.models import Form, Gift, Source
from partners.ground.days import in_list
from partners.ground.tables import BARE, NUMBER, BookTable


class GiftTable(BookTable):
    """Sorted by the day, which an index holds. Give it the desk as `desk`."""

    what = django_tables2.Column(verbose_name=_("What"), accessor="pk")
    giver = django_tables2.Column(verbose_name=_("From"), accessor="pk", attrs=BARE)
    day = django_tables2.Column(
        verbose_name=_("Came on"), orderable=True, order_by=("day", "pk"), attrs={"td": {"class": "brief bare day"}}
    )
    school = django_tables2.Column(verbose_name=_("School"), default="", attrs=BARE)
    thanked = django_tables2.Column(verbose_name=_("Thanked"), accessor="pk", attrs={"td": {"class": "brief day"}})

    caption = _("Gifts")
    counts = True

    class Meta(BookTable.Meta):
        empty_text = _("No gift is found.")

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, **kwargs)

    def render_day(self, value: Any) -> str:
        return in_list(value, self.desk.day)

    def render_what(self, record: Gift) -> str:
        """With what kind of gift it is, where its words do not say so."""
        link = format_html('<a href="{}">{}</a>', record.get_absolute_url(), record.what)
        if record.form in (Form.GOODS, Form.MONEY):
            return link
        return format_html('{} <span class="soft">{}</span>', link, record.get_form_display())

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
            return in_list(thanks.done_on, self.desk.day)
        return format_html(gettext("owed by {day}"), day=in_list(thanks.due, self.desk.day))


class FamilyTable(BookTable):
    """Counts only: nobody is named, and nothing says who gave."""

    school = django_tables2.Column(verbose_name=_("School"), default=_("no school named"))
    item = django_tables2.Column(verbose_name=_("What"))
    count = django_tables2.Column(verbose_name=_("How many"), attrs=NUMBER, default="")
    times = django_tables2.Column(verbose_name=_("How often"), attrs=NUMBER)

    caption = _("What families gave")

    class Meta(BookTable.Meta):
        empty_text = _("Families gave nothing in this time.")
