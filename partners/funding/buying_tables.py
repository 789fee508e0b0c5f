"""Purchases as a list, the latest slip first."""

from __future__ import annotations

from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.funding.buying_models import Payer, Purchase
from partners.ground.money import format_cents
from partners.ground.tables import DAY, NUMBER, BookTable


class PurchaseTable(BookTable):
    """Sorted by the day of the slip, which an index holds."""

    slip_on = django_tables2.Column(verbose_name=_("Slip of"), orderable=True, order_by=("slip_on", "pk"), attrs=DAY)
    what = django_tables2.Column(verbose_name=_("What"), accessor="pk")
    vendor = django_tables2.Column(verbose_name=_("Shop"))
    school = django_tables2.Column(verbose_name=_("School"), default="")
    total = django_tables2.Column(verbose_name=_("Total"), accessor="pk", attrs=NUMBER)
    stands = django_tables2.Column(verbose_name=_("Where it stands"), accessor="pk")

    caption = _("Purchases")

    class Meta(BookTable.Meta):
        empty_text = _("Nothing was bought yet.")

    def __init__(self, *args: Any, own_money: bool = True, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.own_money = own_money

    def render_slip_on(self, value: Any) -> str:
        return date_format(value, "SHORT_DATE_FORMAT")

    def render_what(self, record: Purchase) -> str:
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), record.what)

    def render_total(self, record: Purchase) -> str:
        if record.total_cents is not None:
            return format_cents(record.total_cents)
        if record.estimate_cents is None:
            return ""
        return gettext("about %(amount)s") % {"amount": format_cents(record.estimate_cents)}

    def render_stands(self, record: Purchase) -> str:
        return stands(record, self.own_money)


def stands(purchase: Purchase, own_money: bool) -> str:
    """Where a purchase stands in a few words; `own_money`: whether who paid may be read."""
    if purchase.called_off_on is not None:
        return gettext("not bought after all")
    if purchase.bought_on is None:
        return gettext("to be bought")
    if own_money and purchase.payer == Payer.OWN:
        if purchase.repaid_on is not None:
            return gettext("repaid")
        if purchase.not_claimed:
            return gettext("not asked back")
        if purchase.handed_in_on is not None and purchase.repay_due is not None:
            return gettext("repaid by %(day)s?") % {"day": date_format(purchase.repay_due, "SHORT_DATE_FORMAT")}
    if purchase.handed_in_on is not None:
        return gettext("handed in")
    if purchase.claim_due is not None:
        return gettext("hand in by %(day)s") % {"day": date_format(purchase.claim_due, "SHORT_DATE_FORMAT")}
    return gettext("bought")
