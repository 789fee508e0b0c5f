"""Sheets told as trees of their parts, for a page in a browser: what the tags of the PDF are made from, with the words.

Whatever draws sheets is overheard while it does so. It draws with the same blocks in the same order, and nothing that
is read in the one is missing in the other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextvars import ContextVar
from dataclasses import dataclass, field

from outreach.page.laid import Block
from outreach.page.parts import Drawn, Event, Grown, Leaf, Opened, Part, Role
from outreach.page.pen import Listener
from outreach.page.text import Look

ONE_LINE = 100_000.0
"""Points: so wide that no line is broken but where it must be, as in an address."""


@dataclass
class Told:
    """A part with what is in it, in order: other parts, lines of text, `pen.BLANK`, the cells of a code, a picture."""

    part: Part
    role: Role
    inside: list[object] = field(default_factory=list)


@dataclass
class ToldSheet:
    """A whole sheet. `draft` is the word across it, where it may not be given out yet."""

    title: str
    language: str
    draft: str
    root: Told


_OVERHEARD: ContextVar[list[ToldSheet] | None] = ContextVar("overheard", default=None)


def overhear(draw: Callable[[], object]) -> list[ToldSheet]:
    """The sheets that the drawing draws."""
    sheets: list[ToldSheet] = []
    token = _OVERHEARD.set(sheets)
    try:
        draw()
    finally:
        _OVERHEARD.reset(token)
    return sheets


def overheard() -> list[ToldSheet] | None:
    """Where sheets are to be told instead of drawn; None while nobody listens."""
    return _OVERHEARD.get()


def told(blocks: Iterable[Block], look: Look, listener: Listener) -> Told:
    """The blocks as one sheet."""
    telling = _Telling(Told(Part("Sect"), "Sect"))
    for block in blocks:
        laid = block.lay(ONE_LINE, look)
        if laid.height:
            laid.paint(listener, 0, 0)
    telling.follow(listener.events)
    return telling.stack[0]


class _Telling(Grown[Told]):
    def grow(self, under: Told, part: Part, role: Role) -> Told:
        made = Told(part, role)
        under.inside.append(made)
        return made

    def follow(self, events: Iterable[Event]) -> None:
        for event in events:
            if isinstance(event, Leaf):
                self.grown(event.part, event.further).inside.extend(event.marks)
            elif isinstance(event, Opened):
                self.stack.append(self.grown(*event))
            elif isinstance(event, Drawn):
                if event.kind == "read":
                    self.stack[-1].inside.extend(event.marks)
            else:
                self.stack.pop()
