"""What is the same for every sheet of a run is read once, where the run's desk keeps it."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

from partners.program.desk import Desk

T = TypeVar("T")


def remembered(read: Callable[..., T]) -> Callable[..., T]:
    """A reader `read(desk, *args)` that asks once for all sheets of a run; alone it asks each time.

    Only for what nothing changes while a run goes on: schools, classes, names.
    """

    @wraps(read)
    def once(desk: Desk, *args: Any) -> T:
        if desk.kept is None:
            return read(desk, *args)
        key = (read, desk.school_ids, desk.day, args)
        if key not in desk.kept:
            desk.kept[key] = read(desk, *args)
        kept: T = desk.kept[key]
        return kept

    return once
