"""Tables: columns of blocks with lines between the rows, their heading again on every further page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from outreach.page.blocks import Paragraph, Side, set_lines
from outreach.page.fonts import width
from outreach.page.groups import HALF_A_PAGE
from outreach.page.laid import NOTHING, Block, Laid, repeated, tagged
from outreach.page.parts import Part
from outreach.page.pen import HAIRLINE, Pen
from outreach.page.piles import pile, rows_of
from outreach.page.text import Look, Words, break_lines

SLICE = 150.0
"""Of a row that is cut because it is too high, in points; small, so that little of a page stays empty."""
LEAST_OF_A_TITLE = 0.75
"""How much of the type's size a heading keeps that would else be cut within a word."""
PAD = 5.0
"""Between a line and what stands beside it, in points."""


@dataclass(frozen=True)
class Column:
    """A heading, and how wide the column is beside the others."""

    title: str
    share: float = 1


def cells(*words: Words) -> tuple[Block, ...]:
    """A row of plain text."""
    return tuple(Paragraph(one, before=0) for one in words)


@dataclass(frozen=True)
class _Title:
    """What heads a column, at the side at which the cells below stand."""

    text: str
    side: Side = "left"
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        return set_lines(break_lines(self.text, measure, look.size, "bold"), look.size, look, self.side, measure)


@dataclass(frozen=True)
class Table:
    """Rows of blocks under the columns' headings; each row has at least `room` type sizes, for writing by hand.

    A cell may hold nothing, a row must hold as many cells as there are columns. Without rows nothing is printed.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[Block, ...], ...]
    room: float = 0
    before: float = 1.0

    def lay(self, measure: float, look: Look) -> Laid:
        if not self.rows:
            return NOTHING
        edges = self._edges(measure)
        titled = any(column.title for column in self.columns)
        sides: list[Side] = [cell.side if isinstance(cell, Paragraph) else "left" for cell in self.rows[0]]
        titles = [_Title(column.title, side) for column, side in zip(self.columns, sides, strict=True)]
        head = _row(titles, edges, self._of_titles(edges, look), 0, "Column") if titled else None
        rows = [_row(row, edges, look, self.room * look.size, "" if titled else "Row") for row in self.rows]
        again = repeated(head) if head else None
        begins, *others = [piece for row in rows for piece in row.pieces()]
        first = pile([(0, laid) for laid in (head, begins) if laid])
        pieces = (first, *(Laid(piece.height, piece.paint, again=again) for piece in others))
        whole = pile([(0, piece) for piece in pieces])
        return tagged(Laid(whole.height, whole.paint, lambda: pieces), Part("Table"))

    def _of_titles(self, edges: Sequence[float], look: Look) -> Look:
        """The type of all headings, smaller where a word of one would else be cut."""
        fits = [
            (right - left - 2 * PAD) / width(word, "bold")
            for column, (left, right) in zip(self.columns, pairwise(edges), strict=True)
            for word in column.title.split()
        ]
        least = min(fits, default=look.size) - 0.01
        return look if least >= look.size else look._replace(size=max(least, LEAST_OF_A_TITLE * look.size))

    def _edges(self, measure: float) -> tuple[float, ...]:
        """Where each column begins, and the right edge of the last."""
        whole, edges = sum(column.share for column in self.columns), [0.0]
        for column in self.columns:
            edges.append(edges[-1] + measure * column.share / whole)
        return tuple(edges)


def _row(row: Sequence[Block], edges: Sequence[float], look: Look, room: float, heads: str) -> Laid:
    """One row with a line above and below, and between its cells. `heads` is "Column" where every cell heads one,
    "Row" where the first cell heads the row."""
    laid = [
        pile(rows_of((cell,), right - left - 2 * PAD, look))
        for cell, (left, right) in zip(row, pairwise(edges), strict=True)
    ]
    heading = {number for number in range(len(laid)) if heads == "Column" or (heads and not number)}
    parts = [Part("TH", scope=heads) if number in heading else Part("TD") for number in range(len(laid))]
    high = max(*(cell.height for cell in laid), room, look.leading(look.size)) + 2 * PAD

    def paint(pen: Pen, x: float, y: float) -> None:
        for level in (y, y + high):
            pen.rule(x + edges[0], level, x + edges[-1], level)
        for edge in edges:
            pen.rule(x + edge, y, x + edge, y + high, thick=HAIRLINE)
        for cell, part, edge in zip(laid, parts, edges, strict=False):
            pen.open(part)
            cell.paint(pen, x + edge + PAD, y + PAD)
            pen.close()

    def cut() -> tuple[Laid, ...]:
        slices = list(_slices([list(_atoms(cell)) for cell in laid]))
        ends = (slices[0], slices[-1])
        return tuple(_slice(one, parts, edges, first=one is ends[0], last=one is ends[1]) for one in slices)

    return tagged(Laid(high, paint, cut if high > HALF_A_PAGE else None), Part("TR"))


def _atoms(laid: Laid) -> Iterator[Laid]:
    """What is never cut further: mostly single lines."""
    pieces = laid.pieces()
    if pieces[0] is laid:
        yield laid
        return
    for piece in pieces:
        yield from _atoms(piece)


def _slices(cells: list[list[Laid]]) -> Iterator[list[list[Laid]]]:
    """A row that would not fit a page, cut across all its cells; each slice holds the next few lines of each."""
    while any(cells):
        slice_: list[list[Laid]] = []
        for left in cells:
            taken: list[Laid] = []
            while left and (not taken or sum(one.height for one in taken) + left[0].height <= SLICE):
                taken.append(left.pop(0))
            slice_.append(taken)
        yield slice_


def _slice(cells: list[list[Laid]], parts: Sequence[Part], edges: Sequence[float], *, first: bool, last: bool) -> Laid:
    """A slice with the lines at its sides; the first is closed above, the last below."""
    over, under = PAD if first else 0.0, PAD if last else 0.0
    columns = [pile([(0, one) for one in cell]) for cell in cells]
    high = max(column.height for column in columns) + over + under

    def paint(pen: Pen, x: float, y: float) -> None:
        for level in (*([y] if first else []), *([y + high] if last else [])):
            pen.rule(x + edges[0], level, x + edges[-1], level)
        for edge in edges:
            pen.rule(x + edge, y, x + edge, y + high, thick=HAIRLINE)
        for column, part, edge in zip(columns, parts, edges, strict=False):
            pen.open(part, not first)
            column.paint(pen, x + edge + PAD, y + over)
            pen.close()

    return Laid(high, paint)
