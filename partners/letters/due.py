"""Batches of sheets that were printed and of which something is still here."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import gettext_noop

from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _
from partners.letters.models import LetterState

BATCH = "letters.batch"
PRINTED = gettext_noop("made on %(day)s; say what is gone")


def _batch(row: tuple[Any, ...], day: date) -> DueLine:
    pk, made_on, title = row
    address = row_link("outreach:batch-detail", pk)
    return DueLine(
        source=BATCH,
        pk=pk,
        due=made_on,
        hand=Hand.WRITE,
        verb=_("Hand over or mail"),
        what="",
        who=title,
        who_url=address,
        why=_(PRINTED) % {"day": spelled(made_on, "MONTH_DAY_FORMAT")},
        acts=(Act(_("Open the batch"), address, opens=True),),
    )


def _open_batches(desk: Any) -> QuerySet[Any]:
    """Who teaches at some schools has those alone of which a sheet for these is still here."""
    rows: QuerySet[Any] = desk.batches.filter(settled_on=None)
    if not desk.school_ids:
        return rows
    here = desk.letters.filter(state=LetterState.DRAFT, batch__isnull=False)
    return rows.filter(pk__in=here.order_by().values("batch"))


SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=BATCH, hand=Hand.WRITE, rows=_open_batches, date_field="day", columns=("pk", "day", "title"), line=_batch
    ),
)
