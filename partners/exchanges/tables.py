"""Trades and their deliveries as lists."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.exchanges.models import Trade
from partners.ground.tables import DAY, NUMBER, BookTable
from partners.promises.models import Delivery, Part, Promise


@dataclass(frozen=True)
class State:
    label: Any
    method: str


def states() -> dict[str, State]:
    """What the list can be narrowed to: the words, and the method of the trades' queryset."""
    return {
        "open": State(_("Going on"), "with_something_open"),
        "settled": State(_("Settled"), "settled"),
        "called_off": State(_("Called off"), "called_off"),
        "all": State(_("All"), ""),
    }


def so_far(promises: list[Promise]) -> str:
    """`60 of 200, by December 4`; the number of what came, and the last day that is still open."""
    counted = [one for one in promises if one.quantity is not None]
    came, of = sum(one.delivered for one in counted), sum(one.quantity or 0 for one in counted)
    days = [one.due for one in promises if one.settled_on is None]
    words = gettext("%(came)s of %(of)s") % {"came": f"{came:,}", "of": f"{of:,}"} if counted else ""
    if not days:
        return ", ".join(filter(None, [words, gettext("settled")]))
    by = gettext("by %(day)s") % {"day": date_format(min(days), "SHORT_DATE_FORMAT")}
    return ", ".join(filter(None, [words, by]))


class TradeTable(BookTable):
    """Sorted by the day on which they were agreed, which an index holds."""

    what = django_tables2.Column(verbose_name=_("What we make"), accessor="pk")
    partner = django_tables2.Column(verbose_name=_("With"))
    agreed_on = django_tables2.Column(
        verbose_name=_("Agreed on"), orderable=True, order_by=("agreed_on", "pk"), attrs=DAY
    )
    ours = django_tables2.Column(verbose_name=_("School makes"), accessor="pk")
    theirs = django_tables2.Column(verbose_name=_("They give"), accessor="pk")

    caption = _("Trades")

    class Meta(BookTable.Meta):
        empty_text = _("No trade is found.")

    def render_what(self, record: Trade) -> str:
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), record.what)

    def render_agreed_on(self, value: Any) -> str:
        return date_format(value, "SHORT_DATE_FORMAT")

    def render_ours(self, record: Trade) -> str:
        if record.called_off_on is not None:
            return gettext("called off")
        return so_far(record.side(Part.MAKE))

    def render_theirs(self, record: Trade) -> str:
        return "" if record.called_off_on is not None else so_far(record.side(Part.GIVE))


class DeliveryTable(BookTable):
    """The deliveries behind a number."""

    day = django_tables2.Column(verbose_name=_("On"), attrs=DAY)
    quantity = django_tables2.Column(verbose_name=_("How many"), attrs=NUMBER, default=_("not counted"))
    what = django_tables2.Column(verbose_name=_("What"), accessor="pk")
    partner = django_tables2.Column(verbose_name=_("Partner"), accessor="promise__partner")

    caption = _("Deliveries of trades")

    class Meta(BookTable.Meta):
        empty_text = _("Nothing was delivered in this year.")

    def render_day(self, value: Any) -> str:
        return date_format(value, "SHORT_DATE_FORMAT")

    def render_what(self, record: Delivery) -> str:
        return format_html('<a href="{}">{}</a>', record.promise.get_absolute_url(), record.promise.what)
