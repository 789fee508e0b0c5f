"""The register as a list."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables  # type: ignore[import-untyped]
from django.utils.translation import gettext_lazy as _

from partners.ground.days import in_list
from partners.ground.tables import BARE, SPARE, BookTable
from partners.letters.models import Letter


class LetterTable(BookTable):
    title = tables.Column(verbose_name=_("Sheet"), linkify=True)
    day = tables.Column(verbose_name=_("Day"), orderable=True, attrs={"td": {"class": "brief bare day"}})
    partner = tables.Column(verbose_name=_("To"), linkify=True, attrs=SPARE)
    state = tables.Column(verbose_name=_("State"), attrs=BARE)

    caption = _("Letters and sheets")

    class Meta(BookTable.Meta):
        model = Letter
        fields = ("title", "partner", "day", "state")
        order_by = "-day"
        empty_text = _("Nothing has gone out yet.")

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, **kwargs)

    def render_day(self, value: Any) -> str:
        return in_list(value, self.desk.day)
