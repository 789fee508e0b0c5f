"""Lists that are read in: what stands in the form once the rows were looked at."""

from __future__ import annotations

from typing import Any

from partners.ground.grid import GridRow
from partners.ground.table_rows import Table
from partners.story.import_form import ImportForm
from partners.story.kept_rows import pack
from tests.whole_site.attempt import Attempt

KEPT = pack(Table([GridRow(1, ("Name", "Phone")), GridRow(2, ("Copper Kettle Diner", "201-555-0123"))]))


def looked_at(**typed: Any) -> dict[str, Any]:
    """With the mark that the page gives these rows."""
    form = ImportForm.__new__(ImportForm)
    form.cleaned_data, form.chosen = {**typed, "no_head": False}, {0: "name", 1: "phone"}
    return {**typed, "of_kind": "partners", "column-0": "name", "column-1": "phone", "looked_at": form.mark()}


ATTEMPTS: dict[str, Attempt] = {"story:import": Attempt(looked_at(kind="partners", kept=KEPT))}
