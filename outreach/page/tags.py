"""The tags of a PDF (ISO 32000-1, sections 14.7 and 14.8): which part of which sheet everything drawn belongs to."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from outreach.page.parts import Drawn, Event, Grown, Leaf, Opened, Part, Role
from outreach.page.store import Store, for_reader, text_string

_ORNAMENT, _REPEATED = "/Artifact BMC", "/Artifact <</Type/Pagination>> BDC"
_LEAF = 48
"""Pages in one leaf of the table from pages to parts."""


class Element:
    """A part on its way into the file: its number, its parent's, and what is in it so far, in reading order."""

    __slots__ = ("about", "kids", "number", "page", "parent", "role")

    def __init__(self, number: int, parent: int, role: Role, about: str) -> None:
        self.number = number
        self.parent = parent
        self.role = role
        self.about = about
        self.page = 0
        self.kids: list[str] = []


class Marked(Grown[Element]):
    """The parts of one sheet, and the marks in the page's operators that lead to them."""

    def __init__(self, store: Store, root: Element) -> None:
        super().__init__(root)
        self.store = store
        self.elements = [root]

    def grow(self, under: Element, part: Part, role: Role) -> Element:
        number = self.store.number()
        under.kids.append(f"{number} 0 R")
        made = Element(number, under.number, role, _about(part))
        self.elements.append(made)
        return made

    def last_comes_first(self) -> None:
        """What was drawn last is read before everything else of the sheet."""
        kids = self.stack[0].kids
        kids.insert(0, kids.pop())

    def mark(self, events: Iterable[Event], page: Page) -> None:
        """Puts what was drawn on the page, each piece marked with the part it belongs to."""
        out, stack = page.operators, self.stack
        for event in events:
            if type(event) is Leaf:
                part, further, marks = event
                out.append(page.mark(self.grown(part, further)))
                out += marks
            elif event is None:
                stack.pop()
                continue
            elif type(event) is Opened:
                stack.append(self.grown(*event))
                continue
            elif type(event) is Drawn:
                read = event.kind == "read"
                out.append(page.mark(stack[-1]) if read else _ORNAMENT if event.kind == "ornament" else _REPEATED)
                out += event.marks
            out.append("EMC")

    def finish(self) -> None:
        for element in self.elements:
            page = f"/Pg {element.page} 0 R" if element.page else ""
            kids = element.kids[0] if len(element.kids) == 1 else f"[{' '.join(element.kids)}]"
            self.store.small(
                element.number,
                f"<</S/{element.role}/P {element.parent} 0 R{page}{element.about}/K {kids}>>",
            )


class Page:
    """A page being drawn: its operators, and the part that each mark on it belongs to."""

    __slots__ = ("number", "operators", "owners")

    def __init__(self, number: int) -> None:
        self.number = number
        self.operators: list[Any] = []
        self.owners: list[int] = []

    def mark(self, element: Element) -> str:
        """The operator before something of the element; its first page is named once, in the element itself."""
        mark, role = len(self.owners), element.role
        self.owners.append(element.number)
        if not element.page:
            element.page = self.number
        if element.page == self.number:
            element.kids.append(str(mark))
        else:
            element.kids.append(f"<</Type/MCR/Pg {self.number} 0 R/MCID {mark}>>")
        return f"/{role}<</MCID {mark}>>BDC"


def _about(part: Part) -> str:
    """What a part says of itself besides its role."""
    if part.role == "P":
        return ""
    about = ""
    if part.alt:
        about = f"/{'Alt' if part.role == 'Figure' else 'ActualText'} {text_string(for_reader(part.alt))}"
    if part.marks:
        about += f"/A<</O/List/ListNumbering/{part.marks}>>"
    if part.scope or part.columns > 1:
        scope = f"/Scope/{part.scope}" if part.scope else ""
        about += f"/A<</O/Table{scope}{f'/ColSpan {part.columns}' if part.columns > 1 else ''}>>"
    return about


class Tags:
    """The tree of a whole file: a document of sheets, each in its language."""

    def __init__(self, store: Store, language: str) -> None:
        self._store = store
        self._language = language
        self._root, self._document = store.number(), store.number()
        self._sheets: list[int] = []
        self._leaves: list[tuple[int, int, int]] = []
        self._waiting: list[tuple[int, str]] = []

    def sheet(self, language: str) -> Marked:
        """A further sheet; it says its language where that is not the file's."""
        number = self._store.number()
        self._sheets.append(number)
        about = f"/Lang {text_string(language)}" if language and language != self._language else ""
        return Marked(self._store, Element(number, self._document, "Sect", about))

    def page(self, key: int, page: Page) -> None:
        """The parts of a finished page, under its key."""
        self._waiting.append((key, " ".join([f"{owner} 0 R" for owner in page.owners])))
        if len(self._waiting) >= _LEAF:
            self._leaf()

    def _leaf(self) -> None:
        if self._waiting:
            number, (first, last) = self._store.number(), (self._waiting[0][0], self._waiting[-1][0])
            rows = "".join(f"{key}[{owners}]" for key, owners in self._waiting)
            self._store.small(number, f"<</Limits[{first} {last}]/Nums[{rows}]>>")
            self._leaves.append((number, first, last))
            self._waiting = []

    def finish(self) -> int:
        """Writes the tree; returns the number of its root."""
        self._leaf()
        table, next_key = self._store.number(), self._leaves[-1][2] + 1 if self._leaves else 0
        leaves = " ".join(f"{number} 0 R" for number, _first, _last in self._leaves)
        sheets = " ".join(f"{number} 0 R" for number in self._sheets)
        self._store.small(table, f"<</Kids[{leaves}]>>")
        self._store.small(self._document, f"<</S/Document/P {self._root} 0 R/K[{sheets}]>>")
        self._store.small(
            self._root,
            f"<</Type/StructTreeRoot/K {self._document} 0 R/ParentTree {table} 0 R/ParentTreeNextKey {next_key}>>",
        )
        return self._root
