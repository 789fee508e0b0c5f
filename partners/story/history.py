"""Which changes belong to a partner, and which a person may see and take back."""

from __future__ import annotations

from typing import Any

from django.db.models import Q, QuerySet

from partners.directory.models import Partner
from partners.ground.models import Event, Row
from partners.program.desk import Desk, row_names, school_path
from partners.program.files import shown
from partners.program.keepers_changes import KEEPERS_ROWS
from partners.story.references import references


def events_seen(desk: Desk, events: QuerySet[Event] | None = None) -> QuerySet[Event]:
    """The program's changes, or those `events` of it, latest first; without those about rows of schools that are not
    the person's.

    What only a keeper changes, only keepers see, and whoever did it.
    """
    events = desk.program.events.all() if events is None else events
    events = events.select_related("by", "undone_by").order_by("-at", "-pk")
    # One event may hold twenty thousand rows, and a list of them needs none.
    events = events.defer("changes", "undone_by__changes")
    if not desk.keeps:
        events = events.exclude(Q(about_model__in=KEEPERS_ROWS) & ~Q(by=desk.user))
    if desk.school_ids:
        elsewhere = Q()
        for name, model in row_names().items():
            if school_path(model) or model._meta.model_name == "school":
                seen = getattr(desk, name).order_by().values("pk")
                elsewhere |= Q(about_model=model._meta.model_name) & ~Q(about_pk__in=seen)
        elsewhere |= Q(about_model="attachment") & ~Q(about_pk__in=shown(desk).order_by().values("pk"))
        # What somebody took out themselves is at no school any more, and theirs to put back.
        events = events.exclude(elsewhere & ~Q(by=desk.user))
    return events


def events_of(desk: Desk, partner: Partner) -> QuerySet[Event]:
    """Changes of the partner, and of every row that belongs to it and is still there."""
    before = desk.former_partners.filter(partner=partner).values("was")
    theirs = [Q(model="partner", row=partner.pk), Q(model="partner", row__in=before)]
    for name, model in _rows_with("partner"):
        rows = getattr(desk, name).filter(partner=partner).order_by().values("pk")
        theirs.append(Q(model=model, row__in=rows))
    return _touching(desk, theirs)


def events_about(desk: Desk, row: Row) -> QuerySet[Event]:
    """Changes of one row of any kind, and of every row that refers to it and is still there."""
    if isinstance(row, Partner):
        return events_of(desk, row)
    names = {model: name for name, model in row_names().items()}
    theirs = [Q(model=row._meta.model_name, row=row.pk)]
    for model, column in references(type(row)):
        rows = getattr(desk, names[model]).filter(**{column: row.pk}).order_by().values("pk")
        theirs.append(Q(model=model._meta.model_name, row__in=rows))
    return _touching(desk, theirs)


def _touching(desk: Desk, rows: list[Q]) -> QuerySet[Event]:
    """Changes of these rows, also where each was one of many.

    Each kind of row is asked for by the index of its own; the events are then read by number and not by program, so
    that no engine goes through the whole history for them. That they are the program's, the wall has seen to.
    """
    first, *others = (desk.program.touched.filter(one).order_by().values("event") for one in rows)
    return events_seen(desk, Event.objects.filter(pk__in=first.union(*others)))


def _rows_with(field: str) -> list[tuple[str, Any]]:
    """Each kind of row that has the column: its name on the desk and its model's name."""
    return [
        (name, model._meta.model_name)
        for name, model in sorted(row_names().items())
        if any(column.name == field for column in model._meta.concrete_fields)
    ]
