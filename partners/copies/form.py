"""What a copy of the book looks like: a ZIP with one file of lines for each table, and a list of what is in it.

`copy.json` names the kind of copy, when and at which step of the schema it was made, and for every table its columns,
the number of rows, the last number that was given out, and the SHA-256 of its file. A line of a table's file is one row
as a JSON array: numbers and texts as they are, days as 2026-10-06, instants as UTC, yes and no as 1 and 0, bytes as
base64, columns that hold JSON as its text. Both engines read and write it, and so can any other program.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, field
from typing import Any

NAME = "Partner Book copy"
VERSION = 1
LIST = "copy.json"
SUFFIX = ".book"
SEALED_SUFFIX = ".book.age"

BOOK, PROGRAM, SCHOOL = "book", "program", "school"

FOREIGN = "This file is no copy that Partner Book made."
BROKEN = "This copy is damaged: what it holds is not what was written into it. Use another copy."
CUT = "This copy is cut off or damaged and cannot be opened. Use another copy."
NEWER = "This copy was made by a newer Partner Book than this one: bring Partner Book up to date, then restore it."


class Unreadable(Exception):
    """Why a copy cannot be used, as the sentence to show."""


@dataclass(frozen=True)
class Table:
    """One table of a copy. `last` is the highest number it ever gave to a row: none is given out twice."""

    name: str
    columns: list[str]
    bytes_in: list[str] = field(default_factory=list)
    rows: int = 0
    last: int = 0
    sha256: str = ""

    @property
    def file(self) -> str:
        return f"rows/{self.name}.jsonl"


@dataclass(frozen=True)
class Contents:
    """What `copy.json` says. `schema` is the last migration of the book's tables; `about` names what was copied."""

    kind: str
    made_at: str
    schema: str
    about: list[str]
    tables: list[Table]

    @property
    def rows(self) -> int:
        return sum(table.rows for table in self.tables)

    def table(self, name: str) -> Table | None:
        return next((table for table in self.tables if table.name == name), None)

    def text(self) -> str:
        return json.dumps({"format": NAME, "format_version": VERSION, **asdict(self)}, ensure_ascii=False, indent=1)


def contents_of(text: bytes) -> Contents:
    """Raises Unreadable where this is not the list of a copy, or one of a newer form."""
    try:
        told: Any = json.loads(text)
        if told["format"] != NAME:
            raise Unreadable(FOREIGN)
        if told["format_version"] > VERSION:
            raise Unreadable(NEWER)
        tables = [Table(**table) for table in told["tables"]]
        return Contents(told["kind"], told["made_at"], told["schema"], told["about"], tables)
    except (ValueError, KeyError, TypeError) as problem:
        raise Unreadable(FOREIGN) from problem
