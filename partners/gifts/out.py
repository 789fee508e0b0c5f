"""Gifts as rows of a file, as their list shows them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from partners.gifts.models import Gift

HEADER = [
    _("Came on"), _("What"), _("From"), _("Kind"), _("School"), _("Taken in by"), _("Accepted on"), _("Thanked on"),
]  # fmt: skip


def gift_rows(gifts: QuerySet[Gift]) -> Iterator[list[Any]]:
    """One row a gift in the order of HEADER, read in batches; never what it is worth to its giver."""
    for gift in gifts.select_related("partner", "school", "thanks").prefetch_related("lines").iterator(chunk_size=1000):
        thanks = getattr(gift, "thanks", None)
        yield [
            gift.day,
            gift.what,
            gift.giver,
            str(gift.get_form_display()),
            gift.school.name if gift.school else "",
            gift.received_by,
            gift.accepted_on,
            thanks.done_on if thanks else None,
        ]
