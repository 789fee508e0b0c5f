"""Everything the database holds, as text: every column of every table, on either engine."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from django.contrib.sessions.models import Session
from django.db import connection

from partners.ground.names import fold


def cells() -> Iterator[tuple[str, str]]:
    """The table with its column, and what one row has there."""
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)}")  # noqa: S608 -- names of tables, from the database itself
            names = [column[0] for column in cursor.description]
            for row in cursor.fetchall():
                yield from ((f"{table}.{name}", readable(value)) for name, value in zip(names, row, strict=True))
    for session in Session.objects.all():
        yield "what a session says", str(session.get_decoded())


def readable(value: Any) -> str:
    if isinstance(value, bytes | memoryview):
        return bytes(value).decode("latin-1")
    if isinstance(value, dict | list):
        return json.dumps(value, ensure_ascii=False)
    return "" if value is None else str(value)


def spelled_out(text: str) -> str:
    """With JSON's own escapes undone, as many times as they were made."""
    for _time in range(3):
        if "\\u" in text:
            text = text.encode("latin-1", "backslashreplace").decode("unicode_escape")
    return text


def holding(*needles: str) -> list[str]:
    """Where any of the texts stands: as it is, folded, or in JSON escapes; of numbers the digits alone."""
    found = set()
    for place, text in cells():
        plain = spelled_out(text)
        digits = "".join(sign for sign in text if sign.isdigit())
        for needle in needles:
            if needle.isdigit():
                hit = needle in digits
            else:
                hit = needle.casefold() in plain.casefold() or fold(needle) in fold(plain)
            found |= {place} if hit else set()
    return sorted(found)
