"""Opens a copy, and builds the book it holds in a file beside the site's own before anything is done with it."""

from __future__ import annotations

import json
import zipfile
import zlib
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.db import IntegrityError, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

from partners.agenda.check_book import differences
from partners.agenda.last_heard import last_heard
from partners.agenda.redate import differing
from partners.config.new_database import make_tables
from partners.copies.form import BROKEN, CUT, FOREIGN, LIST, NEWER, SCHOOL, Contents, Table, Unreadable, contents_of
from partners.copies.putting import go_on_after, put
from partners.copies.standing_in import opened, scratch, standing_in
from partners.copies.tables import APP, apps_at, models_at, newest_step, table_of
from partners.program.models import Program

# The list of the tables of a book takes some twenty kilobytes.
LONGEST_LIST = 2_000_000
PROBLEMS = (zipfile.BadZipFile, zlib.error, EOFError, ValueError, KeyError, OSError, NotImplementedError)


def contents(file: Path) -> Contents:
    """What the copy says of itself; raises Unreadable."""
    with _open(file) as packed:
        return _list_of(packed)


@contextmanager
def _open(file: Path) -> Iterator[zipfile.ZipFile]:
    with file.open("rb") as opened_file:
        if opened_file.read(2) != b"PK":
            raise Unreadable(FOREIGN)
    try:
        packed = zipfile.ZipFile(file)
    except PROBLEMS as problem:
        raise Unreadable(CUT) from problem
    with packed:
        yield packed


def _list_of(packed: zipfile.ZipFile) -> Contents:
    try:
        if packed.getinfo(LIST).file_size > LONGEST_LIST:
            raise Unreadable(FOREIGN)
        told = contents_of(packed.read(LIST))
    except KeyError as problem:
        raise Unreadable(FOREIGN) from problem
    except PROBLEMS as problem:
        raise Unreadable(BROKEN) from problem
    steps = {name for app, name in MigrationLoader(None).disk_migrations if app == APP} | {newest_step()}
    if told.schema not in steps:
        raise Unreadable(NEWER)
    return told


@contextmanager
def beside(file: Path, path: Path) -> Iterator[tuple[Any, Contents]]:
    """The book of the copy, made at `path` and standing in for the site's own, brought forward to today's tables.

    Raises Unreadable where the copy is not whole or does not fit together.
    """
    with _open(file) as packed:
        told = _list_of(packed)
        now = told.schema == newest_step()
        if now:
            path.write_bytes(empty_book())
        made = opened(scratch(path))
        try:
            with standing_in(made):
                if not now:
                    make_tables_of(made, told.schema)
                _fill(made, packed, told)
                if not now:
                    _bring_forward(made)
                if told.kind == SCHOOL:
                    settle_again()
                yield made, told
        finally:
            made.close()


@cache
def empty_book() -> bytes:
    """The SQLite file of a book without rows, with today's tables: to draw them up takes longer than to fill them."""
    made = opened(scratch(":memory:"))
    try:
        with standing_in(made):
            make_tables()
            return bytes(made.connection.serialize())
    finally:
        made.close()


def make_tables_of(made: Any, step: str) -> None:
    """As `new_database.make_tables`, as the tables were at an earlier step."""
    loader = MigrationLoader(made)
    with made.schema_editor() as editor:
        for model in apps_at(step).get_models():
            if model._meta.can_migrate(made):
                editor.create_model(model)
        recorder = MigrationRecorder(made)
        recorder.ensure_schema()
        for app, name in loader.graph.forwards_plan((APP, step)):
            recorder.record_applied(app, name)


def _bring_forward(made: Any) -> None:
    executor = MigrationExecutor(made)
    executor.migrate(executor.loader.graph.leaf_nodes())


def _fill(made: Any, packed: zipfile.ZipFile, told: Contents) -> None:
    known = {model._meta.db_table: table_of(model) for model in models_at(told.schema)}
    with made.cursor() as cursor:
        cursor.execute("PRAGMA foreign_keys = OFF")
    try:
        with transaction.atomic():
            for table in told.tables:
                if table.name not in known or set(known[table.name].columns) != set(table.columns):
                    raise Unreadable(BROKEN)
                put(made, table.name, table.columns, _rows(packed, table))
                go_on_after(made, table.name, table.last)
    except (*PROBLEMS, IntegrityError, made.Database.Error) as problem:
        if "full" in str(problem):
            raise
        raise Unreadable(BROKEN) from problem
    with made.cursor() as cursor:
        if cursor.execute("PRAGMA foreign_key_check").fetchone():
            raise Unreadable(BROKEN)
        cursor.execute("PRAGMA foreign_keys = ON")


def _rows(packed: zipfile.ZipFile, table: Table) -> Iterator[list[Any]]:
    places = [table.columns.index(name) for name in table.bytes_in]
    digest, count = sha256(), 0
    with packed.open(table.file) as inside:
        for line in inside:
            digest.update(line)
            row = json.loads(line)
            for place in places:
                row[place] = None if row[place] is None else b64decode(row[place], validate=True)
            count += 1
            yield row
    if digest.hexdigest() != table.sha256 or count != table.rows:
        raise Unreadable(BROKEN)


def settle_again() -> None:
    """What one school's rows keep ready from rows that stayed behind is worked out from those that came."""
    for program in Program.objects.all():
        latest: dict[int, date] = last_heard(program)
        for partner in program.partners.all():
            if partner.last_heard_on != latest.get(partner.pk):
                program.partners.filter(pk=partner.pk).update(last_heard_on=latest.get(partner.pk))
        for rows in differing(program):
            for row, days in rows:
                type(row)._base_manager.filter(pk=row.pk).update(**days)


def what_differs() -> list[str]:
    """What `check_book` says of every program of the book that stands in."""
    return [f"{program}: {words}" for program in Program.objects.order_by("pk") for words in differences(program)]
