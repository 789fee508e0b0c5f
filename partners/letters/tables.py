"""The register as a list."""

from __future__ import annotations

import django_tables2 as tables  # type: ignore[import-untyped]
from django.utils.translation import gettext_lazy as _

from partners.ground.tables import BARE, DAY, SPARE, BookTable
from partners.letters.models import Letter


class LetterTable(BookTable):
    day = tables.DateColumn(verbose_name=_("Day"), orderable=True, attrs=DAY)
    title = tables.Column(verbose_name=_("Sheet"), linkify=True, attrs=BARE)
    partner = tables.Column(verbose_name=_("To"), linkify=True, attrs=SPARE)
    state = tables.Column(verbose_name=_("State"), attrs=BARE)

    caption = _("Letters and sheets")

    class Meta(BookTable.Meta):
        model = Letter
        fields = ("day", "title", "partner", "state")
        order_by = "-day"
        empty_text = _("Nothing has gone out yet.")
