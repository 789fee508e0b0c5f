"""One PDF file being written: its facts for the reader, its pages, and shapes that many pages share."""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import BinaryIO, Protocol

from reportlab.pdfgen.canvas import Canvas

from outreach.page.fonts import font, tidy, width
from outreach.page.paper import Paper
from outreach.page.pen import Pen
from outreach.page.text import Look

Paint = Callable[[Pen, float, float], None]
"""Draws with a pen; x and y are the upper left corner."""

_SAVING = threading.Lock()  # subsetting reads through one shared file position
_REMEMBERED = 512
_SPILL = 108.0  # how far a shape may draw beyond its own edges, as cut lines and accents do


@dataclass(slots=True)
class Laid:
    """A block laid out for one measure: what it takes and how it is drawn.

    `parts` are the pieces it may be cut into between pages (none: it stays whole); together they are as high as the
    block. A height of 0 means that there is nothing to print.
    """

    height: float
    paint: Paint
    parts: tuple["Laid", ...] = ()
    drawn: int = field(default=0, compare=False)
    shape: str = field(default="", compare=False)


NOTHING = Laid(0, lambda pen, x, y: None)


class Block(Hashable, Protocol):
    """Something that can be put on a sheet. `before` is the gap above it, in type sizes."""

    @property
    def before(self) -> float: ...

    def lay(self, measure: float, look: Look) -> Laid:
        """The block at most `measure` points wide."""


class Book:
    """Writes pages to a file. What is laid out twice in the same way is drawn once and shared as a shape."""

    def __init__(self, file: BinaryIO, sheet: Paper, *, title: str, author: str, subject: str, language: str) -> None:
        self.sheet = sheet
        font("regular")
        self.canvas = Canvas(
            file,
            pagesize=(sheet.width, sheet.height),
            pageCompression=1,
            invariant=1,
            initialFontName="Lato-Regular",
            lang=language,
        )
        self.canvas.setTitle(_for_reader(title))
        self.canvas.setAuthor(_for_reader(author))
        self.canvas.setSubject(_for_reader(subject))
        self.canvas.setCreator("Partner Book")
        self.pages = 0
        self._pen = Pen(self.canvas, sheet.height)
        self._laid: OrderedDict[tuple[Block, float, Look], Laid] = OrderedDict()
        self._shapes = 0

    def lay(self, block: Block, measure: float, look: Look) -> Laid:
        """The block laid out; the same block, measure and look give the same object while it is remembered."""
        key = (block, measure, look)
        laid = self._laid.get(key)
        if laid is None:
            laid = self._laid[key] = block.lay(measure, look)
            if len(self._laid) > _REMEMBERED:
                self._laid.popitem(last=False)
        else:
            self._laid.move_to_end(key)
        return laid

    def place(self, laid: Laid, x: float, y: float) -> None:
        """Draws a laid block. Every block of every document is drawn here and nowhere else."""
        laid.drawn += 1
        if laid.drawn == 2:
            self._shapes += 1
            laid.shape = f"shape{self._shapes}"
            with self._pen.shape(laid.shape, (-_SPILL, -laid.height - _SPILL, self.sheet.width, _SPILL)) as recorder:
                laid.paint(recorder, 0, 0)
        if laid.shape:
            self._pen.stamp(laid.shape, x, y)
        else:
            laid.paint(self._pen, x, y)

    def bookmark(self, title: str) -> None:
        """A line in the reader's list of contents that leads to the page being written."""
        key = f"page{self.pages}"
        self.canvas.bookmarkPage(key)
        self.canvas.addOutlineEntry(_for_reader(title) or key, key)

    def watermark(self, word: str) -> None:
        """The word across the page in outline, for what may not be given out yet."""
        size = 150.0
        cosine, sine = 0.5736, 0.8192
        long = width(word, "bold") * size
        x = (self.sheet.width - long * cosine + 0.7 * size * sine) / 2
        y = (self.sheet.height + long * sine + 0.7 * size * cosine) / 2
        self._pen.ghost(x, y, word, size, (cosine, sine))

    def end_page(self) -> None:
        self.canvas.showPage()
        self.pages += 1

    def save(self) -> None:
        with _SAVING:
            self.canvas.save()


def _for_reader(text: str) -> str:
    """Text for the file's own facts: any sign is welcome there, halves of a pair are not."""
    return tidy(text).encode("utf-16", "ignore").decode("utf-16")
