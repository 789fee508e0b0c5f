"""Everything a program's book holds, to see that a change is taken back without a trace."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from django.db import connection, models

from partners.ground.models import Event
from partners.ground.undo import undo
from partners.program.desk import Desk, row_names
from partners.program.models import Program

COUNTS_UP = {"version", "updated_at", "updated_by_id"}


@cache
def questions() -> dict[str, str]:
    """For each kind of row: its id, then every column that neither counts changes nor holds bytes."""
    asked = {}
    for name, model in {"program": Program, **row_names()}.items():
        fields = [field for field in model._meta.concrete_fields if not isinstance(field, models.BinaryField)]
        wanted = ["id", *(field.column for field in fields if field.attname not in COUNTS_UP | {"id"})]
        columns = ", ".join(map(connection.ops.quote_name, wanted))
        of = "id" if model is Program else "program_id"
        asked[name] = f"SELECT {columns} FROM {model._meta.db_table} WHERE {of} = %s"  # noqa: S608 -- names from the models
    return asked


def rows(program: Program) -> dict[tuple[str, int], tuple[Any, ...]]:
    """Every row by its kind and id, and the program itself; asked without the models, which is quick."""
    found: dict[tuple[str, int], tuple[Any, ...]] = {}
    for name, answer in answers(program):
        found |= {(name, row[0]): row for row in answer}
    return found


def answers(program: Program) -> Iterator[tuple[str, list[tuple[Any, ...]]]]:
    asked = questions()
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            for name, question in asked.items():
                cursor.execute(question, [program.pk])
                yield name, cursor.fetchall()
            return
        # A server is asked all at once: each way there and back takes longer than the answer.
        cursor.execute("; ".join(asked.values()), [program.pk] * len(asked))
        for name in asked:
            yield name, cursor.fetchall()
            cursor.nextset()


def undo_newest(desk: Desk) -> Event:
    newest = Event.objects.filter(program=desk.program).latest("pk")
    return undo(desk, newest)
