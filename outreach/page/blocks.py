"""Running text: headings, paragraphs, lists, facts in two columns, and blocks set under or beside each other."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from outreach.page.fonts import Face, printable, width
from outreach.page.laid import NOTHING, Block, Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import HAIRLINE, Pen
from outreach.page.text import Line, Look, Words, break_lines, line_width, spans

HALF_A_PAGE = 320.0
"""What stands in a frame and is higher is cut further, in points: it would leave half a page empty, or fit none."""
SMALLEST = 11.0
"""No running text is smaller, in points."""

Side = Literal["left", "right"]


def set_lines(lines: Sequence[Line], size: float, look: Look, side: Side = "left", measure: float = 0) -> Laid:
    """Lines as a laid block, cut between lines but never leaving one line of several alone."""
    if not lines:
        return NOTHING
    step, rise = look.leading(size), look.first_baseline(size)

    def paint(pen: Pen, x: float, y: float) -> None:
        if side == "left":
            pen.lines(x, y + rise, lines, size, step)
            return
        for number, line in enumerate(lines):
            pen.lines(x + measure - line_width(line, size), y + rise + number * step, [line], size, step)

    def cut() -> tuple[Laid, ...]:
        pieces = [lines[:2], *([line] for line in lines[2:-2]), lines[-2:]]
        return tuple(set_lines(piece, size, look, side, measure) for piece in pieces)

    return Laid(len(lines) * step, paint, cut if len(lines) > 3 else None)


@dataclass(frozen=True)
class Paragraph:
    """Text in the page's running size; `step` makes it larger or smaller by so many points.

    With `heads` it names what follows, and is read as a heading under that of the sheet.
    """

    words: Words
    face: Face = "regular"
    step: float = 0
    side: Side = "left"
    before: float = 0.6
    heads: bool = False

    def lay(self, measure: float, look: Look) -> Laid:
        size = max(look.size + self.step, SMALLEST)
        lines = break_lines(self.words, measure, size, self.face)
        return tagged(set_lines(lines, size, look, self.side, measure), Part("H2" if self.heads else "P"))


@dataclass(frozen=True)
class Heading:
    """A line larger than the rest. Long ones grow smaller, to no less than the running text, before they break."""

    text: str
    size: float = 22
    before: float = 1.0

    def lay(self, measure: float, look: Look) -> Laid:
        text = printable(self.text)
        size = min(self.size, look.size * 1.6)
        while size > look.size + 3 and width(text, "bold") * size > measure * 1.9:
            size -= 1
        return tagged(set_lines(break_lines(text, measure, size, "bold"), size, look), Part("H1"))


@dataclass(frozen=True)
class Bullets:
    """A list; empty items vanish."""

    items: tuple[Words, ...]
    before: float = 0.6
    gap: float = 0.16

    def lay(self, measure: float, look: Look) -> Laid:
        indent = look.size * 1.1
        rows: list[tuple[float, Laid]] = []
        for item in self.items:
            lines = break_lines(item, measure - indent, look.size)
            if lines:
                rows.append((self.gap if rows else 0.0, _hung(set_lines(lines, look.size, look), indent, look)))
        return tagged(pile([(gap * look.size * look.air, row) for gap, row in rows]), Part("L", marks="Disc"))


def _hung(text: Laid, indent: float, look: Look) -> Laid:
    """The text moved right, a dot before its first line."""

    dot = Laid(
        text.height,
        lambda pen, x, y: pen.text(x + look.size * 0.2, y + look.first_baseline(look.size), "•", look.size),
    )
    return listed(dot, text, indent)


def listed(mark: Laid, text: Laid, column: float) -> Laid:
    """One item of a list: what marks or names it, and `column` points to the right what it says."""
    return tagged(beside(tagged(mark, Part("Lbl")), tagged(text, Part("LBody")), column), Part("LI"))


@dataclass(frozen=True)
class Numbered:
    """Steps in order, each with its number in bold; empty ones vanish and are not counted."""

    items: tuple[Words, ...]
    before: float = 0.6
    gap: float = 0.3

    def lay(self, measure: float, look: Look) -> Laid:
        indent = look.size * 1.7
        rows: list[tuple[float, Laid]] = []
        for item in self.items:
            lines = break_lines(item, measure - indent, look.size)
            if lines:
                number = set_lines(break_lines(f"{len(rows) + 1}.", indent, look.size, "bold"), look.size, look)
                step = listed(number, set_lines(lines, look.size, look), indent)
                rows.append((self.gap * look.size * look.air if rows else 0.0, step))
        return tagged(pile(rows), Part("L", marks="Decimal"))


@dataclass(frozen=True)
class Pairs:
    """Facts in two columns: a bold label and what it says. A row without words vanishes with its label."""

    rows: tuple[tuple[str, Words], ...]
    before: float = 0.9
    gap: float = 0.42

    def lay(self, measure: float, look: Look) -> Laid:
        rows: list[tuple[float, Laid]] = []
        shown = [(printable(label), words) for label, words in self.rows if spans(words)]
        widest = max((width(label, "bold") for label, _words in shown), default=0.0) * look.size
        column = min(widest + look.size, measure * 0.34)
        for label, words in shown:
            said = set_lines(break_lines(words, measure - column, look.size), look.size, look)
            name = set_lines(break_lines(label, column - look.size / 2, look.size, "bold"), look.size, look)
            rows.append((self.gap * look.size * look.air if rows else 0.0, listed(name, said, column)))
        return tagged(pile(rows), Part("L", marks="None"))


@dataclass(frozen=True)
class Rule:
    """A hairline across the text."""

    before: float = 0.8

    def lay(self, measure: float, look: Look) -> Laid:
        return Laid(HAIRLINE, lambda pen, x, y: pen.rule(x, y, x + measure, y))


@dataclass(frozen=True)
class Stack:
    """Blocks under each other that are kept as one."""

    blocks: tuple[Block, ...]
    before: float = 0.6

    def lay(self, measure: float, look: Look) -> Laid:
        return pile(rows_of(self.blocks, measure, look))


@dataclass(frozen=True)
class Section:
    """A heading and what it heads. Between pages it is cut as that is, but the heading never stands alone."""

    heading: Block
    body: Block
    before: float = 0.9

    def lay(self, measure: float, look: Look) -> Laid:
        body = self.body.lay(measure, look)
        if not body.height:
            return NOTHING
        named = replace(self.heading, heads=True) if isinstance(self.heading, Paragraph) else self.heading
        heading, gap = named.lay(measure, look), self.body.before * look.size * look.air
        whole = pile([(0, heading), (gap, body)])

        def cut() -> tuple[Laid, ...]:
            first, *others = body.pieces()
            return (pile([(0, heading), (gap, first)]), *others)

        return Laid(whole.height, whole.paint, cut)


@dataclass(frozen=True)
class Framed:
    """Blocks inside a thin black frame, for the one thing that must be seen first."""

    blocks: tuple[Block, ...]
    before: float = 1.0

    def lay(self, measure: float, look: Look) -> Laid:
        pad = max(look.size * look.air * 0.85, 8.0)
        inside = pile(rows_of(self.blocks, measure - 2 * pad, look))
        if not inside.height:
            return NOTHING

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.frame(x, y, measure, inside.height + 2 * pad)
            inside.paint(pen, x + pad, y + pad)

        def cut() -> tuple[Laid, ...]:
            whole = inside.pieces()
            pieces = [part for one in whole for part in (one.pieces() if one.height > HALF_A_PAGE else (one,))]
            ends = (pieces[0], pieces[-1])
            return tuple(
                _framed_piece(piece, measure, pad, first=piece is ends[0], last=piece is ends[1]) for piece in pieces
            )

        return Laid(inside.height + 2 * pad, paint, cut)


def _framed_piece(part: Laid, measure: float, pad: float, *, first: bool, last: bool) -> Laid:
    """A piece of a frame with its sides; the first closes it above, the last below."""
    over, under = pad if first else 0.0, pad if last else 0.0
    high = part.height + over + under

    def paint(pen: Pen, x: float, y: float) -> None:
        for edge in (x, x + measure):
            pen.rule(edge, y, edge, y + high, thick=1)
        if first:
            pen.rule(x, y, x + measure, y, thick=1)
        if last:
            pen.rule(x, y + high, x + measure, y + high, thick=1)
        part.paint(pen, x + pad, y + over)

    return Laid(high, paint)


@dataclass(frozen=True)
class Beside:
    """Blocks on the left and one of `wide` points at the right edge; without that one the left takes it all."""

    left: tuple[Block, ...]
    right: Block
    wide: float
    gutter: float = 22
    before: float = 1.0

    def lay(self, measure: float, look: Look) -> Laid:
        right = self.right.lay(self.wide, look)
        if not right.height:
            return pile(rows_of(self.left, measure, look))
        left = pile(rows_of(self.left, measure - self.wide - self.gutter, look))
        return beside(left, right, measure - self.wide)


def rows_of(blocks: Sequence[Block], measure: float, look: Look) -> list[tuple[float, Laid]]:
    """Gap above and laid block of everything that has something to print; the first has no gap."""
    rows: list[tuple[float, Laid]] = []
    for block in blocks:
        laid = block.lay(measure, look)
        if laid.height:
            rows.append((block.before * look.size * look.air if rows else 0.0, laid))
    return rows


def pile(rows: Sequence[tuple[float, Laid]]) -> Laid:
    """Laid blocks under each other as one block that can be cut between them."""
    if not rows:
        return NOTHING

    def paint(pen: Pen, x: float, y: float) -> None:
        for gap, laid in rows:
            laid.paint(pen, x, y + gap)
            y += gap + laid.height

    def cut() -> tuple[Laid, ...]:
        return tuple(lowered(laid, gap) for gap, laid in rows)

    return Laid(sum([gap + laid.height for gap, laid in rows]), paint, cut)


def lowered(laid: Laid, gap: float) -> Laid:
    """The same block with room above it."""
    if not gap:
        return laid

    def cut() -> tuple[Laid, ...]:
        first, *others = laid.pieces()
        return (lowered(first, gap), *others)

    return Laid(laid.height + gap, lambda pen, x, y: laid.paint(pen, x, y + gap), cut if laid.cut else None)


def beside(left: Laid, right: Laid, column: float) -> Laid:
    """Two blocks with their upper edges level, the second `column` points to the right."""

    def paint(pen: Pen, x: float, y: float) -> None:
        left.paint(pen, x, y)
        right.paint(pen, x + column, y)

    return Laid(max(left.height, right.height), paint)
