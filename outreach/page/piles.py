"""Laid blocks set under or beside each other as one."""

from collections.abc import Sequence

from outreach.page.laid import NOTHING, Block, Laid
from outreach.page.pen import Pen
from outreach.page.text import Look


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
