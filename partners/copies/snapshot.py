"""Rows as a copy holds them, read from either engine as of one moment, without keeping anybody from writing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime, time
from typing import Any

from django.db import transaction

AT_ONCE = 2000


@contextmanager
def one_moment(connection: Any) -> Iterator[Any]:
    """All that is read inside is the book as it stood when the reading began."""
    connection.ensure_connection()
    reading = connection.in_atomic_block or (connection.vendor == "sqlite" and connection.connection.in_transaction)
    if reading:
        yield connection
    elif connection.vendor == "sqlite":
        # Django's own transactions take the right to write, and then others wait for it.
        with connection.cursor() as cursor:
            cursor.execute("BEGIN")
            try:
                yield connection
            finally:
                cursor.execute("ROLLBACK")
    else:
        with transaction.atomic(using=connection.alias):
            with connection.cursor() as cursor:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
            yield connection


def plain(value: Any) -> Any:
    """A value of PostgreSQL as SQLite keeps it."""
    if value is None or isinstance(value, str | bytes):
        return value
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, datetime):
        return str(value.astimezone(UTC).replace(tzinfo=None))
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return str(value)
    return bytes(value) if isinstance(value, memoryview) else value


def rows_of(
    connection: Any, table: str, columns: Sequence[str], where: str = "", values: Sequence[Any] = ()
) -> Iterator[tuple[Any, ...]]:
    """Every row, in the order of the numbers. `where` is SQL of our own."""
    quote = connection.ops.quote_name
    # A sign before a column keeps Django's readers of days and instants out: SQLite then gives the text as it is kept.
    sign = "+" if connection.vendor == "sqlite" else ""
    wanted = ", ".join(sign + quote(column) for column in columns)
    sql = f"SELECT {wanted} FROM {quote(table)} {where} ORDER BY {quote('id')}"  # noqa: S608 -- names of our own tables
    # PostgreSQL would send a whole table at once to a plain cursor.
    with connection.chunked_cursor() as cursor:
        cursor.execute(sql, list(values))
        while rows := cursor.fetchmany(AT_ONCE):
            if connection.vendor == "sqlite":
                yield from rows
            else:
                yield from (tuple(map(plain, row)) for row in rows)


def last_number(connection: Any, table: str) -> int:
    """The highest number the table ever gave to a row, or was given with one."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("SELECT seq FROM sqlite_sequence WHERE name = %s", [table])
            found = cursor.fetchone()
            return int(found[0]) if found else 0
        cursor.execute("SELECT pg_get_serial_sequence(%s, 'id')", [table])
        (sequence,) = cursor.fetchone()
        given = f"SELECT CASE WHEN is_called THEN last_value ELSE 0 END FROM {sequence}"  # noqa: S608 -- the server's own name
        cursor.execute(f"SELECT greatest(({given}), (SELECT max(id) FROM {table}))")  # noqa: S608 -- our own names
        return int(cursor.fetchone()[0])
