"""The parts of a sheet as a reader meets them: headings, paragraphs, lists, tables, pictures, one inside the other.

What a pen draws names its part, and from that come both the tags of the PDF and the page for a browser. Roles are
those of ISO 32000-1, section 14.8.4.
"""

from __future__ import annotations

from typing import Generic, Literal, NamedTuple, TypeVar

Role = Literal["Sect", "H1", "H2", "P", "L", "LI", "Lbl", "LBody", "Table", "TR", "TH", "TD", "Figure"]


class Part:
    """One part of a sheet. The same object, met again, is the same part going on: a paragraph over two pages.

    `alt` is read in place of what is drawn. `scope` is "Column" or "Row" for the cell that heads one, `columns` how
    many a cell takes up, `marks` what stands before the items of a list: "Disc", "Decimal" or "None".
    """

    __slots__ = ("alt", "columns", "marks", "role", "scope")

    def __init__(self, role: Role, *, alt: str = "", scope: str = "", columns: int = 1, marks: str = "") -> None:
        self.role: Role = role
        self.alt = alt
        self.scope = scope
        self.columns = columns
        self.marks = marks


class Opened(NamedTuple):
    """A part begins; with `further` it goes on where an earlier piece of it ended."""

    part: Part
    further: bool


class Drawn(NamedTuple):
    """What was drawn without a break: `kind` says whether it is read; `marks` are operators or, overheard, words."""

    kind: Kind
    marks: list[object]


class Leaf(NamedTuple):
    """A part that holds nothing but what was read in it: opened, drawn and closed in one."""

    part: Part
    further: bool
    marks: list[object]


Kind = Literal["read", "ornament", "repeated"]
"""Of the part that is open; rules, frames and fold marks; what only says again where one is: counts, headings again."""
Event = Opened | Drawn | Leaf | None
"""None closes the part that was opened last."""
T = TypeVar("T")


class Grown(Generic[T]):
    """Follows what pens drew on one sheet and grows the tree of its parts; `T` is a grown part."""

    def __init__(self, root: T) -> None:
        self.stack: list[T] = [root]
        self._met: dict[Part, T] = {}
        self._deepest = 0

    def grown(self, part: Part, further: bool) -> T:
        """The part, in the one that is open: a new one, or the one that goes on."""
        found = self._met.get(part) if further else None
        if found is None:
            role = part.role
            if role == "H1" or role == "H2":
                role = self._heading(role)
            found = self._met[part] = self.grow(self.stack[-1], part, role)
        return found

    def _heading(self, role: Role) -> Role:
        """The level at which a heading stands: the first one of a sheet is the first level, and none is left out."""
        level = min(2 if role == "H2" else 1, self._deepest + 1)
        self._deepest = max(self._deepest, level)
        return "H2" if level == 2 else "H1"

    def grow(self, under: T, part: Part, role: Role) -> T:
        """A new part under another."""
        raise NotImplementedError
