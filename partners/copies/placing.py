"""Puts a whole book in the place of another, all of it or, however the process ends, nothing."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from pathlib import Path
from typing import Any

from django.apps import apps
from django.db import transaction

from partners.copies.putting import go_on_after, put
from partners.copies.snapshot import last_number, one_moment, rows_of
from partners.copies.tables import models_at, newest_step

PATIENCE_S = 30


class Held(Exception):
    """Another program does not let go of the book."""


def place_file(made: Path, target: Path) -> None:
    """The SQLite file `made` in the place of the book at `target`.

    Through SQLite's own backup, one transaction: whoever has the book open goes on with the new one, and whoever
    would have swapped the file under them would lose what they write. Raises Held after half a minute.
    """
    until = time.monotonic() + PATIENCE_S

    def waiting(_status: int, _left: int, _all: int) -> None:
        if time.monotonic() > until:
            raise Held

    with (
        closing(sqlite3.connect(made, isolation_level=None)) as source,
        closing(sqlite3.connect(target, timeout=1, isolation_level=None)) as book,
    ):
        book.execute("PRAGMA synchronous=FULL")
        source.backup(book, progress=waiting, sleep=0.05)
        # What was there before is not to be read from the log; while somebody reads in it, the next one empties it.
        book.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def place_rows(source: Any, target: Any, *, instead: bool) -> None:
    """Every row of `source` into the tables of `target`, in one transaction; `instead` of those that are there."""
    with one_moment(source), transaction.atomic(using=target.alias):
        if instead:
            _empty(target)
        for model in models_at(newest_step()):
            table, columns = model._meta.db_table, [str(field.column) for field in model._meta.concrete_fields]
            put(target, table, columns, rows_of(source, table, columns))
            go_on_after(target, table, last_number(source, table))
        target.check_constraints()


def _empty(target: Any) -> None:
    """Sessions and signed-in devices go too: they would let people into another book."""
    found = set(target.introspection.table_names())
    kept = {"django_migrations", "django_content_type", "auth_permission"}
    names = [
        target.ops.quote_name(model._meta.db_table)
        for model in apps.get_models(include_auto_created=True)
        if model._meta.db_table in found - kept
    ]
    with target.cursor() as cursor:
        cursor.execute(f"TRUNCATE {', '.join(names)}")


def holds_rows(connection: Any) -> bool:
    """Whether anybody or anything is in the book."""
    tables = connection.introspection.table_names()
    with connection.cursor() as cursor:
        for table in ("partners_user", "partners_program"):
            if table in tables:
                cursor.execute(f"SELECT 1 FROM {table} LIMIT 1")  # noqa: S608 -- our own names
                if cursor.fetchone():
                    return True
    return False
