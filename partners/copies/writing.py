"""Writes a copy: of the whole book, of one program, or of what one school's rows stand on."""

from __future__ import annotations

import json
import re
import zipfile
from base64 import b64encode
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from hashlib import sha256
from typing import IO, Any

from django.apps import apps
from django.db import connection as book

from partners.copies.form import BOOK, LIST, PROGRAM, SCHOOL, Contents, Table
from partners.copies.one_school import standing_on
from partners.copies.snapshot import last_number, one_moment, rows_of
from partners.copies.tables import LEFT_OUT, models_at, step_of, table_of
from partners.ground.models import Event
from partners.program.models import Program, User
from partners.school.models import School

# A little less packed, in half the time.
PACKED = 3
AT_ONCE = 256 * 1024
# A whole program's copy may be given to others: nobody's password is in it, and no link that lets somebody in.
NOT_HANDED_ON = {"invitation"}
# People whom only the history still names.
NAMED = re.compile(r'"(?:by|user|used_by|created_by|updated_by)_id": ?(\d+)')
Rows = Iterator[tuple[Any, ...]]
Narrowed = Callable[[Table], Rows]


def write_book(*, file: IO[bytes], at: datetime, connection: Any = None) -> Contents:
    """Everything the database holds, but for sessions and signed-in devices, as of one moment.

    `at` is when it is made; `file` must be open for writing. Also of a database whose migrations wait.
    """
    with one_moment(connection or book) as source:
        step = step_of(source)
        found = [table_of(model) for model in models_at(step)]
        about = [name for (name,) in rows_of(source, Program._meta.db_table, ["name"])]
        return _write(file, source, Contents(BOOK, at.isoformat(), step, about, found), {})


def write_program(*, program: Program, file: IO[bytes], at: datetime, school: School | None = None) -> Contents:
    """One program, or one school's rows with everything they stand on, as of one moment.

    A program brings its history and the names of its members, without their passwords. One school brings neither
    history nor people who sign in, since both tell of other schools.
    """
    about = [program.name, *([school.name] if school else [])]
    with one_moment(book) as source:
        step = step_of(source)
        chosen = [model for model in models_at(step) if model._meta.model_name not in NOT_HANDED_ON]
        kept = standing_on(source, program, school) if school else None
        narrowed = {model._meta.db_table: _narrowed(source, model, program, kept) for model in chosen}
        contents = Contents(SCHOOL if school else PROGRAM, at.isoformat(), step, about, list(map(table_of, chosen)))
        return _write(file, source, contents, narrowed)


def _narrowed(source: Any, model: Any, program: Program, kept: Mapping[Any, set[int]] | None) -> Narrowed:
    """What of a table goes into the copy."""

    def rows(table: Table) -> Rows:
        if model._meta.model_name == "user":
            numbers = [] if kept is not None else sorted(people(source, program))
            where, values = f"WHERE id IN ({', '.join(map(str, numbers)) or 'NULL'})", []
        else:
            of = "id" if model._meta.model_name == "program" else "program_id"
            where, values = f"WHERE {of} = %s", [program.pk]
        found = rows_of(source, table.name, table.columns, where, values)
        number = table.columns.index("id")
        chosen = None if kept is None else next((kept[own] for own in kept if own._meta.db_table == table.name), None)
        blank = {"password": "!", "is_staff": 0, "is_superuser": 0, "last_login": None}
        if kept is not None:
            blank |= dict.fromkeys(columns_of_people(model))
        yield from _blanked(table, (row for row in found if chosen is None or row[number] in chosen), blank)

    return rows


def _blanked(table: Table, rows: Rows, blank: Mapping[str, Any]) -> Rows:
    places = [(place, blank[name]) for place, name in enumerate(table.columns) if name in blank]
    for row in rows:
        cells = list(row)
        for place, value in places:
            cells[place] = value
        yield tuple(cells)


def columns_of_people(model: Any) -> list[str]:
    return [field.column for field in model._meta.concrete_fields if field.related_model is User]


def people(source: Any, program: Program) -> set[int]:
    """Who wrote or changed anything in the program, is a member, or was one."""
    found: set[int] = set()
    with source.cursor() as cursor:
        for model in apps.get_app_config("partners").get_models():
            of = "id" if model is Program else "program_id"
            for column in columns_of_people(model) if model._meta.model_name not in LEFT_OUT | {"user"} else ():
                cursor.execute(f"SELECT DISTINCT {column} FROM {model._meta.db_table} WHERE {of} = %s", [program.pk])  # noqa: S608 -- names from the models
                found |= {number for (number,) in cursor.fetchall() if number}
    told = rows_of(source, Event._meta.db_table, ["changes"], "WHERE program_id = %s", [program.pk])
    named = {int(number) for (text,) in told for number in NAMED.findall(text)}
    with source.cursor() as cursor:
        cursor.execute("SELECT id FROM partners_user")
        return (found | named) & {number for (number,) in cursor.fetchall()}


def _write(file: IO[bytes], source: Any, contents: Contents, narrowed: Mapping[str, Narrowed]) -> Contents:
    tables = []
    day = datetime.fromisoformat(contents.made_at)
    stamp = (max(day.year, 1980), day.month, day.day, 0, 0, 0)
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=PACKED) as packed:
        for table in contents.tables:
            whole = rows_of(source, table.name, table.columns)
            rows = narrowed[table.name](table) if table.name in narrowed else whole
            counted = _Counted(rows)
            digest = sha256()
            part = zipfile.ZipInfo(table.file, stamp)
            part.compress_type = zipfile.ZIP_DEFLATED
            with packed.open(part, "w", force_zip64=True) as inside:
                for chunk in lines(table, counted):
                    digest.update(chunk)
                    inside.write(chunk)
            last = last_number(source, table.name)
            tables.append(replace(table, rows=counted.count, last=last, sha256=digest.hexdigest()))
        whole_list = replace(contents, tables=tables)
        packed.writestr(zipfile.ZipInfo(LIST, stamp), whole_list.text(), zipfile.ZIP_DEFLATED)
    return whole_list


class _Counted:
    def __init__(self, rows: Rows) -> None:
        self.rows, self.count = rows, 0

    def __iter__(self) -> Rows:
        for row in self.rows:
            self.count += 1
            yield row


def lines(table: Table, rows: Iterable[tuple[Any, ...]]) -> Iterator[bytes]:
    """Rows as lines, many together."""
    encode = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), default=_in_text).encode
    waiting: list[str] = []
    size = 0
    for row in rows:
        line = encode(row)
        waiting.append(line)
        size += len(line)
        if size > AT_ONCE:
            yield ("\n".join(waiting) + "\n").encode()
            waiting, size = [], 0
    if waiting:
        yield ("\n".join(waiting) + "\n").encode()


def _in_text(value: Any) -> str:
    if isinstance(value, bytes):
        return b64encode(value).decode("ascii")
    raise TypeError(f"A copy holds no {type(value).__name__}.")
