"""One PDF file being written, page by page, with the shapes that many pages share."""

from __future__ import annotations

from typing import Any, BinaryIO

from outreach.page.fonts import width
from outreach.page.laid import NOTHING, Block, Laid, Paint
from outreach.page.paper import Paper
from outreach.page.parts import Drawn, Event, Leaf
from outreach.page.pen import Listener, Pen
from outreach.page.store import Store
from outreach.page.tags import Marked, Page, Tags
from outreach.page.text import Look

__all__ = ["NOTHING", "Block", "Book", "Laid", "Paint"]

_REMEMBERED = 256
_SPILL = 108.0  # how far a shape may draw beyond its own edges, as cut lines and accents do
_SHARED = 60
"""Operators longer than this are stored once, as a shape; shorter ones are written again, which takes less."""


class Book:
    """Writes pages of one paper. What is laid out twice in the same way is drawn once and shared."""

    def __init__(self, sheet: Paper, *, title: str = "", author: str = "", subject: str = "", language: str) -> None:
        self.sheet = sheet
        self.language = language
        self.pages = 0
        self._store = Store(title=title, author=author, subject=subject, language=language)
        self._tags = Tags(self._store, language)
        self._page: Page | None = None
        self._parts: Marked | None = None
        self._bookmarks: list[tuple[str, int]] = []
        self._begins = False
        self._laid: dict[tuple[Block, float, Look], Laid] = {}
        self._older: dict[tuple[Block, float, Look], Laid] = {}

    def lay(self, block: Block, measure: float, look: Look) -> Laid:
        """The block laid out; the same block, measure and look give the same object while it is remembered."""
        key = (block, measure, look)
        laid = self._laid.get(key)
        if laid is None:
            laid = self._older.get(key) or block.lay(measure, look)
            if len(self._laid) >= _REMEMBERED:
                self._laid, self._older = {}, self._laid
            self._laid[key] = laid
        return laid

    @property
    def _at(self) -> Page:
        """The page being drawn."""
        if self._page is None:
            self._page = Page(self._store.number())
        return self._page

    @property
    def _of(self) -> Marked:
        """The parts of the sheet being drawn."""
        if self._parts is None:
            self._parts = self._tags.sheet(self.language)
        return self._parts

    def begin(self, title: str, language: str = "") -> None:
        """A sheet begins with the next page: a line in the reader's list of contents leads to it."""
        self._bookmarks.append((title, 0))
        self._begins = True
        self._parts = self._tags.sheet(language or self.language)

    def bookmark(self, title: str) -> None:
        """A line in the reader's list of contents, under that of the sheet, leads to the page being drawn."""
        self._bookmarks.append((title, 1))

    def place(self, laid: Laid, x: float, y: float) -> None:
        """Draws a laid block. Every block of every document is drawn here and nowhere else."""
        laid.drawn += 1
        page = self._at
        if laid.drawn == 1:
            pen = Pen(self._store, self.sheet.height)
            laid.paint(pen, x, y)
            self._of.mark(pen.events, page)
            return
        if not laid.kept:
            pen = Pen(self._store, 0)
            laid.paint(pen, 0, 0)
            box = (-_SPILL, -laid.height - _SPILL, self.sheet.width, _SPILL)
            laid.kept = [self._shared(event, box) for event in pen.events]
        page.operators.append(f"q 1 0 0 1 {x:.2f} {self.sheet.height - y:.2f} cm")
        self._of.mark(laid.kept, page)
        page.operators.append("Q")

    def _shared(self, event: Event, box: tuple[float, float, float, float]) -> Event:
        """What is drawn many times, as one shape where it is long."""
        if not isinstance(event, (Drawn, Leaf)):
            return event
        marks: list[Any] = event.marks
        if sum(map(len, marks)) <= _SHARED:
            return event
        return event._replace(marks=[f"/{self._store.shape(box, marks)} Do"])

    def listener(self) -> Listener:
        """A pen that draws nothing."""
        return Listener(self._store)

    def words_of(self, laid: Laid) -> list[str]:
        """The words that a laid block would draw, line by line."""
        listener = self.listener()
        laid.paint(listener, 0, 0)
        return listener.heard

    def watermark(self, word: str) -> None:
        """The word across the page in outline, for what may not be given out yet. It is read first, and once."""
        size, cosine, sine = 150.0, 0.5736, 0.8192
        long = width(word, "bold") * size
        x = (self.sheet.width - long * cosine + 0.7 * size * sine) / 2
        y = (self.sheet.height + long * sine + 0.7 * size * cosine) / 2
        pen, first = Pen(self._store, self.sheet.height), self._begins
        pen.repeating(not first)
        pen.ghost(x, y, word, size, (cosine, sine))
        self._of.mark(pen.events, self._at)
        if first:
            self._of.last_comes_first()

    def end_page(self) -> None:
        page = self._at
        key = self._store.page(page.number, (self.sheet.width, self.sheet.height), page.operators, self._bookmarks)
        self._tags.page(key, page)
        self._page = None
        self._bookmarks, self._begins = [], False
        self.pages += 1

    def end(self) -> None:
        """The sheet that began is whole."""
        if self._parts is not None:
            self._parts.finish()
            self._parts = None

    def taken(self) -> bytes:
        """What of the file was finished since the last time; `save` then writes the rest."""
        return self._store.taken()

    def save(self, file: BinaryIO) -> None:
        self.end()
        self._store.save(file, self._tags.finish())
