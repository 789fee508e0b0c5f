"""Whether two databases hold the same book, row by row and cell by cell, whatever their engines."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Any

from django.db import models

from partners.copies.snapshot import last_number, rows_of
from partners.copies.tables import models_at, newest_step


def unequal(one: Any, other: Any) -> Iterator[str]:
    """A sentence for each table that differs, with the first number at which it does. Nothing where all is equal."""
    for model in models_at(newest_step()):
        table = model._meta.db_table
        columns = [str(field.column) for field in model._meta.concrete_fields]
        texts = [
            place for place, field in enumerate(model._meta.concrete_fields) if isinstance(field, models.JSONField)
        ]
        for first, second in zip_longest(rows_of(one, table, columns), rows_of(other, table, columns)):
            if first != second and _alike(first, texts) != _alike(second, texts):
                yield f"{table} differs from row {(first or second or [None])[0]} on"
                break
        if last_number(one, table) != last_number(other, table):
            yield f"{table} would give its next row another number"


def _alike(row: Sequence[Any] | None, texts: Sequence[int]) -> list[Any] | None:
    """PostgreSQL keeps the keys of JSON in an order of its own."""
    if row is None:
        return None
    cells = list(row)
    for place in texts:
        cells[place] = None if cells[place] is None else json.dumps(json.loads(cells[place]), sort_keys=True)
    return cells


def counted(connection: Any) -> dict[str, int]:
    """How many rows each table has."""
    found = {}
    with connection.cursor() as cursor:
        for model in models_at(newest_step()):
            cursor.execute(f"SELECT count(*) FROM {connection.ops.quote_name(model._meta.db_table)}")  # noqa: S608 -- our own names
            found[model._meta.db_table] = cursor.fetchone()[0]
    return found
