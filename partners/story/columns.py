"""Which column of a file is which of ours, and each cell read by its kind. Pure: nothing here knows the record."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from partners.ground.cells_in import no_mistake, of_one_line
from partners.ground.csv_out import unguarded
from partners.ground.direction import unturned
from partners.ground.grid import GridRow
from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop

# Heads that only a list of children has. This book keeps no child.
OF_CHILDREN = {
    "student name", "students name", "child name", "childs name", "child", "student", "name of student", "pupil",
    "pupil name", "birthday", "birthdate", "birth date", "date of birth", "dob", "student id", "student number",
}  # fmt: skip
CHILDREN = gettext_noop(
    "This looks like a list of children (a column is called “%(head)s”). This book keeps no child, so nothing of it is "
    "read."
)
MISSING = gettext_noop("“%(column)s” is missing.")
TWO_COLUMNS = gettext_noop("Two columns are both “%(column)s”. Choose one of them.")
NO_COLUMN = gettext_noop("No column is “%(column)s” yet. Choose below which one it is.")


@dataclass(frozen=True)
class Column:
    """One of our columns: the head it has in our own files, other heads it is known by, and how a cell is read.

    `text`: keeps its line breaks. `must`: a new row cannot do without.
    """

    name: str
    label: str
    words: tuple[str, ...] = ()
    read: Callable[[str], Any] = str
    must: bool = False
    text: bool = False

    def knows(self, head: str) -> bool:
        return head == fold(self.label) or head in self.words


@dataclass(frozen=True)
class Wrong:
    """What is wrong with a row, and in which cell (`C14`); with the whole row where no cell is named."""

    error: PlainError
    cell: str = ""
    head: str = ""


@dataclass
class Line:
    """One row of a file as it was read. `values` holds only what was typed: an empty cell says nothing."""

    number: int
    values: dict[str, Any] = field(default_factory=dict)
    wrong: list[Wrong] = field(default_factory=list)
    cells: dict[str, str] = field(default_factory=dict)
    heads: dict[str, str] = field(default_factory=dict)

    def refuse(self, error: PlainError, name: str = "") -> None:
        self.wrong.append(Wrong(error, self.cells.get(name, ""), self.heads.get(name, "")))


def guessed(head: GridRow, columns: Sequence[Column]) -> dict[int, str]:
    """Which of our columns each column of the file seems to be, by the words of its head; each of ours once."""
    found: dict[int, str] = {}
    for place, cell in enumerate(head.cells):
        words = fold(unguarded(cell))
        name = next((one.name for one in columns if one.knows(words) and one.name not in found.values()), "")
        if name:
            found[place] = name
    return found


def refused_heads(head: GridRow) -> PlainError | None:
    """Whether the heads are those of a list of children."""
    named = next((cell for cell in head.cells if fold(cell) in OF_CHILDREN), "")
    return PlainError("children", CHILDREN, head=named) if named else None


def unclear(chosen: Mapping[int, str], columns: Sequence[Column], needed: Iterable[Sequence[str]]) -> list[PlainError]:
    """What is wrong with the columns as they were chosen. Of each group in `needed` one has to be there."""
    labels = {one.name: one.label for one in columns}
    names = list(chosen.values())
    twice = [name for name in labels if names.count(name) > 1]
    missing = [group[0] for group in needed if not any(name in names for name in group)]
    return [PlainError("two_columns", TWO_COLUMNS, column=labels[name]) for name in twice] + [
        PlainError("no_column", NO_COLUMN, column=labels[name]) for name in missing
    ]


def read_lines(
    rows: Iterable[GridRow], chosen: Mapping[int, str], columns: Sequence[Column], head: GridRow | None
) -> list[Line]:
    """Every row with each of its cells read; what cannot be read stands in the line's `wrong`."""
    known = {one.name: one for one in columns}
    heads = {name: head.cell(place) if head else known[name].label for place, name in chosen.items()}
    letters = {place: letters_of(place) for place in chosen}
    lines = []
    for row in rows:
        line = Line(row.number, heads=heads)
        for place, name in chosen.items():
            column = known[name]
            typed = unturned(row.cell(place))
            typed = unguarded(typed.strip() if column.text else of_one_line(typed))
            if not typed:
                continue
            line.cells[name] = f"{letters[place]}{row.number}"
            try:
                line.values[name] = column.read(no_mistake(typed))
            except PlainError as error:
                line.refuse(error, name)
        lines.append(line)
    return lines


def require(line: Line, columns: Iterable[Column]) -> None:
    """Refuses a line without what a new row cannot do without; a cell that could not be read is refused already."""
    for column in columns:
        if column.must and column.name not in line.values and column.name not in line.cells:
            line.refuse(PlainError("missing", MISSING, column=column.label))


def letters_of(place: int) -> str:
    """A column as spreadsheets call it: 0 is A, 25 is Z, 26 is AA."""
    letters = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
