"""Restores a whole book in the place of the one that is there, of which a copy is kept first."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from django.db import DatabaseError, connection

from partners.copies.form import Unreadable
from partners.copies.keeping import dated, make_copy
from partners.copies.placing import holds_rows, place_file, place_rows
from partners.program.last_copy import folder


@dataclass(frozen=True)
class There:
    """What stands where the copy goes: nothing, a book, or a file that can no longer be opened."""

    rows: bool
    readable: bool = True


def what_is_there() -> There:
    try:
        found = There(holds_rows(connection))
        if connection.vendor == "sqlite":
            with connection.cursor() as cursor:
                found = found if cursor.execute("PRAGMA quick_check(1)").fetchone()[0] == "ok" else There(True, False)
    except DatabaseError:
        if connection.vendor != "sqlite":
            raise
        found = There(True, readable=False)
    connection.close()
    return found


def keep_what_is_there(there: There, at: datetime) -> Path | None:
    """A copy of the book that is about to be replaced; a file that cannot be opened is set aside as it is."""
    if not there.rows:
        return None
    book = Path(connection.settings_dict["NAME"])
    aside = folder() / f"unreadable-{at:%Y-%m-%d-%H%M%S}.sqlite3"
    if there.readable:
        try:
            return make_copy(to=folder() / dated("before-restore", at, sealed=False), at=at).path
        except Unreadable:
            # Its rows do not fit together, which is no reason to keep a sound copy out.
            if connection.vendor != "sqlite":
                raise
            place_file(book, aside)
            return aside
    for end in ("-wal", "-shm", ""):
        with suppress(FileNotFoundError):
            book.with_name(book.name + end).rename(aside.with_name(aside.name + end))
    return aside


def place(made: Any, own: Any) -> None:
    """The book in the scratch file `made` in the place of `own`, whose tables are there where it is no file."""
    if own.vendor == "sqlite":
        made.close()
        place_file(Path(made.settings_dict["NAME"]), Path(own.settings_dict["NAME"]))
    else:
        place_rows(made, own, instead=True)
    # Other connections see for themselves that the tables were laid anew.
    own.close()
