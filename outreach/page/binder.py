"""Several sheets bound into one file: a front with the table of contents, pages counted through, bookmarks to all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from outreach.page.blocks import set_lines
from outreach.page.book import Book
from outreach.page.fonts import printable, width
from outreach.page.laid import Block, Laid, repeated, tagged
from outreach.page.parts import Part
from outreach.page.pen import LIGHT_GREY, Pen
from outreach.page.piles import pile
from outreach.page.sheet import Arrangement, Sheet, arrange, draw_sheet
from outreach.page.text import Look, break_lines
from outreach.page.told import overheard


@dataclass(frozen=True)
class Named:
    """A block to which a line in the table of contents leads. It stands in the flow of its sheet, in no other block."""

    title: str
    block: Block

    @property
    def before(self) -> float:
        return self.block.before

    def lay(self, measure: float, look: Look) -> Laid:
        laid = self.block.lay(measure, look)

        def cut() -> tuple[Laid, ...]:
            first, *others = laid.pieces()
            return (_named(first, self.title), *others)

        return replace(_named(laid, self.title), cut=cut if laid.cut else None)


def _named(laid: Laid, title: str) -> Laid:
    """As something of its own: a block that is remembered is not renamed."""
    return Laid(laid.height, laid.paint, None, laid.again, named=title)


@dataclass(frozen=True)
class Entry:
    """A line of the table of contents; `level` 1 stands under the line of level 0 before it. `page` 0: not known."""

    title: str
    level: int = 0
    page: int = 0


@dataclass(frozen=True)
class Contents:
    """The table of contents, a long one in two columns. Its numbers are for who leafs through paper, and are not read
    aloud.
    """

    entries: tuple[Entry, ...]
    before: float = 0.4

    def lay(self, measure: float, look: Look) -> Laid:
        if len(self.entries) <= ONE_COLUMN:
            return _column(self.entries, measure, look)
        half, wide = -(-len(self.entries) // 2), (measure - GUTTER) / 2
        first, second = (_column(part, wide, look) for part in (self.entries[:half], self.entries[half:]))

        def paint(pen: Pen, x: float, y: float) -> None:
            first.paint(pen, x, y)
            second.paint(pen, x + wide + GUTTER, y)

        return Laid(max(first.height, second.height), paint)


ONE_COLUMN = 20
GUTTER = 24.0


def _column(entries: Sequence[Entry], measure: float, look: Look) -> Laid:
    return pile([(0.35 * look.size if not one.level else 0.0, _line(one, measure, look)) for one in entries])


def _line(entry: Entry, measure: float, look: Look) -> Laid:
    """The title, a hairline, and the number at the right edge."""
    indent, size = entry.level * 1.4 * look.size, look.size
    face = "bold" if not entry.level else "regular"
    number = str(entry.page) if entry.page else ""
    room = measure - indent - 3.5 * size
    lines = break_lines(printable(entry.title), room, size, face)
    title = tagged(set_lines(lines, size, look), Part("P"))
    last = "".join(span.text for span in lines[-1]) if lines else ""
    digits = repeated(set_lines(break_lines(number, 3 * size, size), size, look, "right", measure))

    def paint(pen: Pen, x: float, y: float) -> None:
        title.paint(pen, x + indent, y)
        if number:
            low = title.height - look.leading(size)
            level = y + low + look.first_baseline(size)
            start, end = x + indent + width(last, face) * size + 6, x + measure - width(number) * size - 6
            pen.rule(start, level, end, level, grey=LIGHT_GREY)
            digits.paint(pen, x, y + low)

    return Laid(title.height, paint)


def bind(book: Book, front: Callable[[tuple[Entry, ...]], Sheet], sheets: Sequence[Sheet]) -> int:
    """Draws the front, made from what stands where, and the sheets behind it; returns how many pages that made."""
    if overheard() is not None:
        draw_sheet(front(_entries(sheets, [_named_in(sheet) for sheet in sheets])), book)
        return 1 + sum(draw_sheet(sheet, book) for sheet in sheets)
    arranged = [arrange(sheet, book) for sheet in sheets]
    marks = [_marks(one) for one in arranged]
    # The numbers take the same room whatever they are, so the front has as many pages before they are known.
    first = len(arrange(front(_entries(sheets, marks)), book).pages)
    before = [first + sum(len(one.pages) for one in arranged[:place]) for place in range(len(arranged))]
    total = first + sum(len(one.pages) for one in arranged)
    numbered = [[(title, page + start) for title, page in found] for found, start in zip(marks, before, strict=True)]
    entries = _entries(sheets, numbered, [start + 1 for start in before])
    draw_sheet(replace(front(entries), bound=(0, total)), book)
    for sheet, one, start in zip(sheets, arranged, before, strict=True):
        draw_sheet(replace(sheet, bound=(start, total)), book, one)
    return total


def _named_in(sheet: Sheet) -> list[tuple[str, int]]:
    return [(block.title, 0) for block in sheet.flow if isinstance(block, Named)]


def _marks(arranged: Arrangement) -> list[tuple[str, int]]:
    """What is named on a sheet, with the number of its page there, from 1."""
    pages = enumerate(arranged.pages, 1)
    return [(placed.laid.named, number) for number, page in pages for placed in page if placed.laid.named]


def _entries(
    sheets: Sequence[Sheet], named: Sequence[Sequence[tuple[str, int]]], starts: Sequence[int] = ()
) -> tuple[Entry, ...]:
    entries = []
    for place, (sheet, found) in enumerate(zip(sheets, named, strict=True)):
        entries.append(Entry(sheet.title, 0, starts[place] if starts else 0))
        entries.extend(Entry(title, 1, page if starts else 0) for title, page in found)
    return tuple(entries)
