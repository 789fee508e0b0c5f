"""The rows of a table that somebody sends, whatever kind of file they stood in, and how many they may be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from partners.ground.grid import GridRow
from partners.ground.plain import PlainError, gettext_noop

MOST_ROWS = 20_000
MOST_COLUMNS = 100

TOO_MANY_ROWS = gettext_noop("This file has more than %(most)s rows. Split it into several files.")
TOO_MANY_COLUMNS = gettext_noop(
    "Row %(row)s has %(columns)s columns; at most %(most)s can be read. Keep the columns that you need."
)


@dataclass(frozen=True)
class Table:
    """Rows that hold anything. `sheet` is the one that was read, `others` those that were not."""

    rows: Sequence[GridRow]
    sheet: str = ""
    others: tuple[str, ...] = ()


def filled_rows(rows: Iterable[Sequence[str]]) -> list[GridRow]:
    """Rows that hold anything, without the empty cells at their ends, numbered as a spreadsheet does.

    Raises PlainError where they are too many, or too wide.
    """
    found: list[GridRow] = []
    for number, cells in enumerate(rows, start=1):
        last = next((place for place in range(len(cells), 0, -1) if cells[place - 1].strip()), 0)
        if not last:
            continue
        if last > MOST_COLUMNS:
            facts = {"row": f"{number:,}", "columns": f"{last:,}", "most": MOST_COLUMNS}
            raise PlainError("too_many_columns", TOO_MANY_COLUMNS, **facts)
        # One row more than there may be: the first may hold the names of the columns.
        if len(found) > MOST_ROWS:
            raise PlainError("too_many_rows", TOO_MANY_ROWS, most=f"{MOST_ROWS:,}")
        found.append(GridRow(number, tuple(cells[:last])))
    return found
