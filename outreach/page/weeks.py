"""A grid of rows over columns of time: where each row begins, and how long it goes on."""

from dataclasses import dataclass
from itertools import pairwise

from outreach.page.blocks import set_lines
from outreach.page.fonts import Face, printable, width
from outreach.page.laid import NOTHING, Laid, repeated, tagged
from outreach.page.parts import Part
from outreach.page.pen import Pen
from outreach.page.piles import pile
from outreach.page.text import Look, break_lines

PAD = 4.0
BAR, SHORTEST_BAR = 3.0, 10.0


@dataclass(frozen=True)
class GridRow:
    """`label` and `amount` at the left; from column `first` on a bar goes through column `last`, after `words`.

    Without `first` the words stand over the whole grid. A row that is `heading` has no grid of its own.
    """

    label: str
    amount: str = ""
    words: str = ""
    first: int | None = None
    last: int = 0
    heading: bool = False


@dataclass(frozen=True)
class Grid:
    """Rows over `columns` of time under `titles` (label, amount); the heading again on every further page."""

    titles: tuple[str, str]
    columns: tuple[str, ...]
    rows: tuple[GridRow, ...]
    before: float = 0.8

    def lay(self, measure: float, look: Look) -> Laid:
        if not self.rows:
            return NOTHING
        edges = self._edges(measure, look.size)
        head = self._line(GridRow(*self.titles), edges, look, self.columns)
        laid = [self._line(row, edges, look) for row in self.rows]
        pieces: list[Laid] = []
        top = repeated(head)
        again, waiting = top, [head]
        for row, line in zip(self.rows, laid, strict=True):
            if row.heading:  # it stays with the row under it, and stands over a further page
                waiting.append(line)
                over, again = top, pile([(0, top), (0, repeated(line))])
                continue
            made = pile([(0, one) for one in (*waiting, line)])
            pieces.append(Laid(made.height, made.paint, again=over if waiting else again) if pieces else made)
            waiting = []
        pieces.extend(waiting)
        whole = pile([(0, piece) for piece in pieces])
        return tagged(Laid(whole.height, whole.paint, lambda: tuple(pieces)), Part("Table"))

    def _edges(self, measure: float, size: float) -> tuple[float, ...]:
        """Where the amount, each column of time and the right edge stand; long labels leave room for the grid."""
        label = max((width(printable(row.label)) * size for row in self.rows if not row.heading), default=0.0)
        amount = max(width(printable(text)) * size for text in (self.titles[1], *(row.amount for row in self.rows)))
        amount += 2 * PAD
        dates = (*self.columns, *(row.words for row in self.rows if row.first is not None))
        widest = max((width(printable(text), "bold") for text in dates), default=0.0) * size
        least = (widest + 2 * PAD + SHORTEST_BAR) * len(self.columns)
        names = min(max(label, width(printable(self.titles[0])) * size) + 2 * PAD, measure - amount - least)
        names = max(names, measure * 0.14)
        step = (measure - names - amount) / len(self.columns)
        return (names, *(names + amount + step * place for place in range(len(self.columns) + 1)))

    def _line(self, row: GridRow, edges: tuple[float, ...], look: Look, columns: tuple[str, ...] = ()) -> Laid:
        size = look.size
        face: Face = "bold" if row.heading or columns else "regular"
        room = edges[-1] if row.heading else edges[0]
        label = set_lines(break_lines(row.label, room - 2 * PAD, size, face), size, look)
        high = max(label.height, look.leading(size)) + PAD
        base = PAD / 2 + look.first_baseline(size)

        told, amount, times = self._cells(row, columns)

        def paint(pen: Pen, x: float, y: float) -> None:
            for level in (y, y + high):
                pen.rule(x, level, x + edges[-1], level)
            pen.open(told)
            label.paint(pen, x + PAD, y + PAD / 2)
            pen.close()
            if row.heading:
                return
            pen.open(amount)
            pen.text_right(x + edges[1] - PAD, y + base, printable(row.amount), size, face)
            pen.close()
            for edge in edges:
                pen.rule(x + edge, y, x + edge, y + high)
            for part, text, (left, _right) in zip(times, columns, pairwise(edges[1:]), strict=False):
                pen.open(part)
                pen.text(x + left + PAD, y + base, printable(text), size, "bold")
                pen.close()
            if not columns:
                self._bar(pen, row, edges, look, (x, y + base), times)

        return tagged(Laid(high, paint), Part("TR"))

    def _cells(self, row: GridRow, columns: tuple[str, ...]) -> tuple[Part, Part, list[Part]]:
        """The cells of a row: the label, the amount, and in the time what is before the bar, the bar, and after it."""
        many = len(self.columns)
        if columns:
            return Part("TH", scope="Column"), Part("TH", scope="Column"), [Part("TH", scope="Column") for _ in columns]
        label = Part("TH", scope="Row", columns=many + 2 if row.heading else 1)
        first, last = (0, many - 1) if row.first is None else (row.first, row.last)
        before, after = ([Part("TD") for _ in range(count)] for count in (first, many - 1 - last))
        return label, Part("TD"), [*before, Part("TD", columns=last - first + 1), *after]

    def _bar(
        self, pen: Pen, row: GridRow, edges: tuple[float, ...], look: Look, at: tuple[float, float], cells: list[Part]
    ) -> None:
        (x, base), times = at, edges[1:]
        words = printable(row.words)
        left = x + times[row.first or 0] + PAD
        for number, part in enumerate(cells):
            pen.open(part)
            if number == (row.first or 0):
                pen.text(left, base, words, look.size, "bold")
            pen.close()
        if row.first is not None:
            start = left + width(words, "bold") * look.size + PAD
            end = x + times[row.last + 1] - PAD
            if end > start:
                pen.cells([(start, base - look.size * 0.36 - BAR / 2, end - start, BAR)])
