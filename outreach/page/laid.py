"""Blocks, and blocks laid out: what they take, how they are drawn, where they may be cut, which part they are."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Protocol

from outreach.page.parts import Event, Part
from outreach.page.pen import Pen
from outreach.page.text import Look

Paint = Callable[[Pen, float, float], None]
"""Draws with a pen; x and y are the upper left corner."""


@dataclass(slots=True)
class Laid:
    """A block laid out for one measure: what it takes and how it is drawn.

    `cut` gives the pieces that it may be cut into between pages, together as high as the block; without it the block
    stays whole. A height of 0 means that there is nothing to print. `again` stands above a piece that begins a page.
    `kept` is what it draws, remembered once it was drawn twice. `named` is a line in the reader's list of contents
    that leads to where it begins.
    """

    height: float
    paint: Paint
    cut: Callable[[], tuple[Laid, ...]] | None = None
    again: Laid | None = None
    drawn: int = field(default=0, compare=False)
    kept: list[Event] = field(default_factory=list, compare=False)
    named: str = ""

    def pieces(self) -> tuple[Laid, ...]:
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


def tagged(laid: Laid, part: Part, *, further: bool = False) -> Laid:
    """The laid block as one part of the sheet; its pieces are pieces of that one part."""
    if not laid.height:
        return laid

    def paint(pen: Pen, x: float, y: float) -> None:
        pen.open(part, further)
        laid.paint(pen, x, y)
        pen.close()

    def cut() -> tuple[Laid, ...]:
        pieces = laid.pieces()
        if pieces == (laid,):
            return ()
        return tuple(tagged(piece, part, further=further or piece is not pieces[0]) for piece in pieces)

    return Laid(laid.height, paint, cut if laid.cut else None, laid.again)


def repeated(laid: Laid) -> Laid:
    """The laid block as something that was read already, or that only counts pages."""

    def paint(pen: Pen, x: float, y: float) -> None:
        pen.repeating(True)
        laid.paint(pen, x, y)
        pen.repeating(False)

    return Laid(laid.height, paint)
