"""One PDF file being written, page by page, with the shapes that many pages share."""

from abc import abstractmethod
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import BinaryIO, Protocol

from outreach.page.fonts import width
from outreach.page.paper import Paper
from outreach.page.pen import Listener, Pen
from outreach.page.store import Store
from outreach.page.text import Look

Paint = Callable[[Pen, float, float], None]
"""Draws with a pen; x and y are the upper left corner."""

_REMEMBERED = 256
_SPILL = 108.0  # how far a shape may draw beyond its own edges, as cut lines and accents do


@dataclass(slots=True)
class Laid:
    """A block laid out for one measure: what it takes and how it is drawn.

    `cut` gives the pieces that it may be cut into between pages, together as high as the block; without it the block
    stays whole. A height of 0 means that there is nothing to print. `again` stands above a piece that begins a page.
    """

    height: float
    paint: Paint
    cut: Callable[[], tuple["Laid", ...]] | None = None
    again: "Laid | None" = None
    drawn: int = field(default=0, compare=False)
    shape: str = field(default="", compare=False)

    def pieces(self) -> tuple["Laid", ...]:
        return (self.cut() if self.cut else ()) or (self,)


NOTHING = Laid(0, lambda pen, x, y: None)


class Block(Hashable, Protocol):
    """Something that can be put on a sheet. `before` is the gap above it, in type sizes."""

    @property
    @abstractmethod
    def before(self) -> float: ...

    @abstractmethod
    def lay(self, measure: float, look: Look) -> Laid:
        """The block at most `measure` points wide."""


class Book:
    """Writes pages of one paper. What is laid out twice in the same way is drawn once and shared as a shape."""

    def __init__(self, sheet: Paper, *, title: str = "", author: str = "", subject: str = "", language: str) -> None:
        self.sheet = sheet
        self.pages = 0
        self._store = Store(title=title, author=author, subject=subject, language=language)
        self._pen = Pen(self._store, sheet.height)
        self._bookmark = ""
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

    def place(self, laid: Laid, x: float, y: float) -> None:
        """Draws a laid block. Every block of every document is drawn here and nowhere else."""
        laid.drawn += 1
        if laid.drawn == 2:
            recorder = Pen(self._store, 0)
            laid.paint(recorder, 0, 0)
            box = (-_SPILL, -laid.height - _SPILL, self.sheet.width, _SPILL)
            laid.shape = self._store.shape(box, recorder.operators)
        if laid.shape:
            self._pen.stamp(laid.shape, x, y)
        else:
            laid.paint(self._pen, x, y)

    def words_of(self, laid: Laid) -> list[str]:
        """The words that a laid block would draw, line by line."""
        listener = Listener(self._store)
        laid.paint(listener, 0, 0)
        return listener.heard

    def bookmark(self, title: str) -> None:
        """A line in the reader's list of contents that leads to the page being written."""
        self._bookmark = title

    def watermark(self, word: str) -> None:
        """The word across the page in outline, for what may not be given out yet."""
        size, cosine, sine = 150.0, 0.5736, 0.8192
        long = width(word, "bold") * size
        x = (self.sheet.width - long * cosine + 0.7 * size * sine) / 2
        y = (self.sheet.height + long * sine + 0.7 * size * cosine) / 2
        self._pen.ghost(x, y, word, size, (cosine, sine))

    def end_page(self) -> None:
        self._store.page(self.sheet.width, self.sheet.height, self._pen.operators, self._bookmark)
        self._pen = Pen(self._store, self.sheet.height)
        self._bookmark = ""
        self.pages += 1

    def save(self, file: BinaryIO) -> None:
        self._store.save(file)
