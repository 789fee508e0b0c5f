"""Where a row stands now that was put together with another one, as told by the change that did it."""

from __future__ import annotations

from typing import Any, TypeVar

from django.db import models
from django.http import Http404
from django.utils.translation import gettext_noop

from partners.ground.changes import MovedOn
from partners.ground.models import Event, Row

R = TypeVar("R", bound=Row)

PARTNERS = gettext_noop("%(other)s put together with %(partner)s")
HELPERS = gettext_noop("%(other)s put together with %(helper)s")
PEOPLE = gettext_noop("%(other)s put together with %(person)s")


def kept_instead(desk: Any, model: str, pk: int) -> models.Model | None:
    """The row that the merger of this vanished one was about, where it still is or was put together itself since."""
    touching = desk.program.touched.filter(model=model, row=pk).order_by().values("event")
    merged = Event.objects.filter(pk__in=touching, words__in=(PARTNERS, HELPERS, PEOPLE), undone_by=None, undoes=None)
    last = merged.defer("changes").order_by("-pk").first()
    if last is None or (last.about_model, last.about_pk) == (model, pk):
        return None
    row: models.Model | None = last.about()
    return row if row is not None else kept_instead(desk, last.about_model, last.about_pk or 0)


def row_at(desk: Any, rows: models.QuerySet[R], pk: int) -> R:
    """The row of this number. Raises MovedOn with the one that took its place, or Http404."""
    row = rows.filter(pk=pk).first()
    if row is not None:
        return row
    kept = kept_instead(desk, rows.model._meta.model_name or "", pk)
    if kept is None:
        raise Http404
    raise MovedOn(kept)
