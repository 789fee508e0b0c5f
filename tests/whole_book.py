"""Everything a program's book holds, to see that a change is taken back without a trace."""

from __future__ import annotations

from typing import Any

from partners.ground.frozen import frozen
from partners.ground.models import Event
from partners.ground.undo import undo
from partners.program.desk import Desk, row_names
from partners.program.models import Program

COUNTS_UP = {"version", "updated_at", "updated_by_id"}


def rows(program: Program) -> dict[tuple[str, int], dict[str, Any]]:
    """Every row by its kind and id, and the program itself, without the columns that only count changes."""
    own = {column: value for column, value in frozen(Program.fresh(program.pk)).items() if column not in COUNTS_UP}
    return {("program", program.pk): own} | {
        (name, row.pk): {column: value for column, value in frozen(row).items() if column not in COUNTS_UP}
        for name, model in row_names().items()
        for row in model._base_manager.filter(program=program)
    }


def undo_newest(desk: Desk) -> Event:
    newest = Event.objects.filter(program=desk.program).latest("pk")
    return undo(desk, newest)
