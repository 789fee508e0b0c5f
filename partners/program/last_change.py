"""The last change of a row that its page offers to take back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from partners.ground.models import Event, Row
from partners.program.desk import Desk

# Days: what was written down long ago is put right, not taken back.
TAKEN_BACK_WITHIN = 31


@dataclass(frozen=True)
class LastChange:
    """`is_first` where the row itself goes with it."""

    event: Event
    is_first: bool

    @property
    def pk(self) -> int:
        return self.event.pk


def last_change(desk: Desk, row: Row) -> LastChange | None:
    """The newest that was about the row and still holds."""
    model = str(row._meta.model_name)
    events = Event.objects.filter(program=desk.program, about_model=model, about_pk=row.pk)
    lately = desk.day - timedelta(days=TAKEN_BACK_WITHIN)
    event = events.filter(undoes=None, undone_by=None, at__date__gte=lately).order_by("-pk").first()
    if event is None:
        return None
    made = any((one["model"], one["pk"], one["before"]) == (model, row.pk, None) for one in event.changes)
    return LastChange(event, made)
