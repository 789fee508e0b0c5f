"""Grants as a list."""

from __future__ import annotations

from datetime import date
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.funding.grant_models import Grant, GrantState
from partners.ground.money import format_cents
from partners.ground.tables import BARE, NUMBER, BookTable


class GrantTable(BookTable):
    title = django_tables2.Column(verbose_name=_("What for"))
    partner = django_tables2.Column(verbose_name=_("Grantmaker"), attrs=BARE)
    state = django_tables2.Column(verbose_name=_("State"), attrs=BARE)
    amount = django_tables2.Column(verbose_name=_("Amount"), accessor="pk", attrs=NUMBER)
    left = django_tables2.Column(verbose_name=_("Still to spend"), accessor="pk", attrs=NUMBER)
    coming = django_tables2.Column(verbose_name=_("Next date"), accessor="pk")

    caption = _("Grants")

    class Meta(BookTable.Meta):
        empty_text = _("No grant is found.")

    def render_title(self, record: Grant, value: Any) -> str:
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), value)

    def render_state(self, record: Grant) -> str:
        return gettext("reported") if record.reported_on else str(record.get_state_display())

    def render_amount(self, record: Grant) -> str:
        cents = record.awarded_cents if record.state == GrantState.AWARDED else record.asked_cents
        return format_cents(cents) if cents is not None else ""

    def render_left(self, record: Grant) -> str:
        is_open = record.state == GrantState.AWARDED and not record.leftover_settled
        return format_cents(record.left_cents) if is_open and record.left_cents else ""

    def __init__(self, *args: Any, day: date, **kwargs: Any) -> None:
        self.day = day
        super().__init__(*args, **kwargs)

    def render_coming(self, record: Grant) -> str:
        due, words = next_date(record)
        if due is None or due >= self.day:
            return words
        return format_html('<span class="late">{}</span>', gettext("late: %(what)s") % {"what": words})


def next_date(grant: Grant) -> tuple[date | None, str]:
    """The next day on which something of the grant is due, and what."""
    left = grant.left_cents > 0 and not grant.leftover_settled
    dated = {
        GrantState.PLANNED: [(grant.apply_by, gettext("apply by %(day)s"))],
        GrantState.ASKED: [(grant.answer_by, gettext("answer by %(day)s"))],
        GrantState.AWARDED: [
            (grant.spend_by if left else None, gettext("spend by %(day)s")),
            (grant.claim_by if grant.claimed_on is None else None, gettext("claim by %(day)s")),
            (grant.report_due if grant.reported_on is None else None, gettext("report by %(day)s")),
        ],
        GrantState.REFUSED: [],
    }[GrantState(grant.state)]
    ahead = sorted((day, words) for day, words in dated if day is not None)
    if not ahead:
        return None, ""
    due, words = ahead[0]
    return due, words % {"day": date_format(due, "SHORT_DATE_FORMAT")}
