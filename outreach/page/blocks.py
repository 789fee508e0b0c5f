"""Running text: headings, paragraphs, lists, facts in two columns."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from outreach.page.fonts import Face, printable, width
from outreach.page.laid import NOTHING, Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import HAIRLINE, Pen
from outreach.page.piles import beside, pile
from outreach.page.text import Line, Look, Words, break_lines, line_width, spans

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
