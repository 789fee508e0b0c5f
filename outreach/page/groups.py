"""Blocks that belong together: kept as one, under a heading, in a frame, or beside one at the right edge."""

from dataclasses import dataclass, replace

from outreach.page.blocks import Paragraph
from outreach.page.laid import NOTHING, Block, Laid
from outreach.page.pen import Pen
from outreach.page.piles import beside, pile, rows_of
from outreach.page.text import Look

HALF_A_PAGE = 320.0
"""What stands in a frame and is higher is cut further, in points: it would leave half a page empty, or fit none."""


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
