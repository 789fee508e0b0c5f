"""Rows as a copy holds them, put into a database of either engine."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any


def put(connection: Any, table: str, columns: Sequence[str], rows: Iterable[Sequence[Any]]) -> None:
    """Must be called inside a transaction: what the rows refer to may come after them."""
    quote = connection.ops.quote_name
    into = f"{quote(table)} ({', '.join(map(quote, columns))})"
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            marks = ", ".join("?" * len(columns))
            # Straight to SQLite's own cursor, which takes the rows one by one.
            connection.connection.executemany(f"INSERT INTO {into} VALUES ({marks})", rows)  # noqa: S608 -- our own names
            return
        with cursor.copy(f"COPY {into} FROM STDIN") as copy:
            for row in rows:
                copy.write_row(row)


def go_on_after(connection: Any, table: str, last: int) -> None:
    """The next row gets a number above `last`, also where rows above those that are there were removed."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("UPDATE sqlite_sequence SET seq = max(seq, %s) WHERE name = %s", [last, table])
            if not cursor.rowcount and last:
                cursor.execute("INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", [table, last])
            return
        cursor.execute("SELECT pg_get_serial_sequence(%s, 'id')", [table])
        (sequence,) = cursor.fetchone()
        cursor.execute("SELECT setval(%s, %s, %s)", [sequence, max(last, 1), last > 0])
