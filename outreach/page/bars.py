"""Bars that a grey copier keeps: black in a black frame, without any shade. The number stands in words beside them.

They are ornament: whoever hears the sheet read hears the numbers of the table that they stand in.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from outreach.page.laid import NOTHING, Block, Laid
from outreach.page.pen import LIGHT_GREY, Pen
from outreach.page.piles import pile, rows_of
from outreach.page.text import Look

LEAST = 1.5
"""No number above nought is drawn lower than this, in points."""


@dataclass(frozen=True)
class Lying:
    """`part` of `whole` as a filled bar in an empty frame."""

    part: int
    whole: int
    before: float = 0.2

    def lay(self, measure: float, look: Look) -> Laid:
        if self.whole <= 0:
            return NOTHING
        high = look.size * 0.7
        filled = measure * min(self.part, self.whole) / self.whole

        def paint(pen: Pen, x: float, y: float) -> None:
            top = y + look.size * 0.2
            pen.frame(x, top, measure, high)
            if filled:
                pen.cells([(x, top, filled, high)])

        return Laid(high + look.size * 0.4, paint)


@dataclass(frozen=True)
class Upright:
    """A bar that stands on the floor of its cell, as high as `part` is of `whole`."""

    part: int
    whole: int
    high: float = 30
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        tall = max(LEAST, self.high * min(self.part, self.whole) / self.whole) if self.part and self.whole else 0.0

        def paint(pen: Pen, x: float, y: float) -> None:
            if tall:
                pen.cells([(x, y + self.high - tall, measure, tall)])

        return Laid(self.high, paint)


@dataclass(frozen=True)
class Folded:
    """Blocks that stand under the fold of a card: a hairline where it is folded, and at least `high` points."""

    blocks: tuple[Block, ...]
    high: float
    side: float
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        inside = pile(rows_of(self.blocks, measure, look))
        room = 2.2 * look.size

        def paint(pen: Pen, x: float, y: float) -> None:
            for start, end in _ends(x - self.side, x + measure + self.side):
                pen.rule(start, y, end, y, grey=LIGHT_GREY)
            inside.paint(pen, x, y + room)

        return Laid(max(self.high, inside.height + room), paint)


def _ends(left: float, right: float) -> Sequence[tuple[float, float]]:
    """Two short hairlines at the edges of the sheet."""
    return ((left + 18, left + 54), (right - 54, right - 18))
