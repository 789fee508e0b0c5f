"""Moves a whole book to another database, of whichever engine, and compares every cell before it counts."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.db import transaction

from partners.copies.comparing import counted, unequal
from partners.copies.placing import holds_rows, place_rows
from partners.copies.snapshot import one_moment
from partners.copies.standing_in import standing_in
from partners.copies.tables import newest_step, step_of


class CannotMove(Exception):
    """Why nothing was moved, as the sentence to show."""


def move(source: Any, target: Any, make_tables: Callable[[], None]) -> dict[str, int]:
    """Every row of one database in the tables of another, which holds nothing yet; how many rows each table has.

    `make_tables` readies the database that stands in. Raises CannotMove, and then nothing was moved.
    """
    if step_of(source) != newest_step():
        raise CannotMove(
            "The book to move is from an older Partner Book: start Partner Book on it once, then move it."
            if step_of(source)
            else "There is no book to move."
        )
    if holds_rows(target):
        raise CannotMove("There is a book already where this one would go, and nothing was moved: name an empty one.")
    with one_moment(source), standing_in(target):
        make_tables()
        with transaction.atomic():
            place_rows(source, target, instead=False)
            found = list(unequal(source, target))
            if found:
                raise CannotMove(f"Not everything arrived as it was, so nothing was moved: {'; '.join(found)}.")
            return counted(target)
