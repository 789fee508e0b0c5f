"""A part of a spreadsheet, as it comes out of the clipboard or out of a file, read into rows of cells."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from partners.ground.direction import TURNING

# Joins, marks of direction and of the start of a file: seen by nobody, and in the way of every comparison.
_UNSEEN = TURNING | dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff"))
_SEVERAL_SPACES = re.compile(r" {2,}")


@dataclass(frozen=True)
class GridRow:
    """`number` counts as the spreadsheet does: from 1, the head of the columns and empty rows counted."""

    number: int
    cells: tuple[str, ...]

    def cell(self, place: int | None) -> str:
        """What stands in a column; nothing where the row ends before it, or where there is no such column."""
        return self.cells[place] if place is not None and place < len(self.cells) else ""


def read_grid(text: str) -> list[GridRow]:
    """The rows that hold anything, each without the empty cells at its end.

    Columns are parted by tabs where there is any, else by commas or semicolons where most lines have two, else by
    several spaces. A cell in quotes may hold all of these and line breaks (RFC 4180); where a quote is opened and
    never closed, quotes are signs like others.
    """
    text = re.sub(r"\r\n?|[\x0b\x0c\x85\u2028\u2029]", "\n", text.translate(_UNSEEN).replace("\x00", ""))
    rows = _parted(text.replace("\xa0", " "))
    return cleaned(GridRow(number, tuple(row)) for number, row in enumerate(rows, start=1))


def cleaned(rows: Iterable[GridRow]) -> list[GridRow]:
    """Cells without marks that nobody sees and with single spaces; rows without empty cells at their end."""
    found = [GridRow(row.number, _without_end(row.cells)) for row in rows]
    return [row for row in found if row.cells]


def _parted(text: str) -> list[list[str]]:
    lines = text.split("\n")
    full = [line for line in lines if line.strip()]
    if "\t" in text:
        return _quoted(text, "\t")
    for sign in ",;":
        if sum(line.count(sign) >= 2 for line in full) * 2 > len(full):
            return _quoted(text, sign)
    return [_SEVERAL_SPACES.split(line.strip()) for line in lines]


def _quoted(text: str, sign: str) -> list[list[str]]:
    try:
        return list(csv.reader(text.splitlines(keepends=True), delimiter=sign, strict=True))
    except csv.Error:
        return [line.split(sign) for line in text.split("\n")]


def _without_end(row: Sequence[str]) -> tuple[str, ...]:
    cells = [" ".join(cell.translate(_UNSEEN).split()) for cell in row]
    while cells and not cells[-1]:
        cells.pop()
    return tuple(cells)
