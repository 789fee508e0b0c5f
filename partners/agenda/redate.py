"""Dates that were counted over a calendar or by a setting, worked out again when that changes."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from contextlib import closing
from typing import Any

from partners.agenda.stored_days import ALONE, PLANNED_BY, StoredDays
from partners.exchanges.stored_plan import differing_rows
from partners.ground.changes import Change
from partners.program.desk import Desk
from partners.program.models import Program

Dated = tuple[Any, dict[str, Any]]


def differing(program: Program, changed: Collection[str] = ()) -> Iterator[list[Dated]]:
    """For each kind of row, the open rows whose stored days differ from what the calendar says, with the right days.

    Where rows of the kinds `changed` alone were touched, what cannot depend on them is left out.
    """
    only = set(changed)
    every = not only or bool(only - ALONE - PLANNED_BY)
    for rows, days_of in StoredDays(program).kinds():
        if not every and rows.model._meta.model_name not in only:
            continue
        # Where a calendar has no school day at all, this ends early; no cursor may stay open behind it.
        with closing(rows.order_by().iterator(chunk_size=2000)) as found:
            counted = ((row, dict(days_of(row))) for row in found)
            yield [(row, days) for row, days in counted if any(getattr(row, name) != day for name, day in days.items())]
    # With the number of children shares move as well, until work begins.
    if every or only - ALONE:
        yield differing_rows(program)


def redate(book: Change, desk: Desk, changed: Collection[str] = ()) -> int:
    """Move every open date that was counted over the calendar. Returns how many rows moved.

    The program's figures count as they are stored: an undo may just have changed them.
    """
    return sum(book.update_each(rows) for rows in differing(Program.fresh(desk.program.pk), changed))
