"""What a reader fills in by hand: boxes to tick, lines to write on, a strip to cut off."""

from dataclasses import dataclass

from outreach.page.blocks import set_lines
from outreach.page.fonts import printable, width
from outreach.page.laid import Block, Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import HAIRLINE, Pen
from outreach.page.piles import pile, rows_of
from outreach.page.text import Look, break_lines

TICK = 11.0
"""Side of a box to tick, in points: a pen finds it without aiming."""
EMPTY_BOX = "☐"
"""What is read of a box, in any language."""
SHORTEST_LINE = 90.0
_BOX, _SAID = Part("Lbl", alt=EMPTY_BOX), Part("LBody")


@dataclass(frozen=True)
class Choice:
    """A box to tick and its words; `line` leaves room to write behind them, in points."""

    words: str
    line: float = 0


@dataclass(frozen=True)
class Ticks:
    """Choices in so many columns that line up, after an optional question in bold."""

    choices: tuple[Choice, ...]
    columns: int = 2
    question: str = ""
    before: float = 0.6

    def lay(self, measure: float, look: Look) -> Laid:
        size = look.size
        question = printable(self.question)
        lead = width(question, "bold") * size + 18 if question else 0.0
        starts = self._starts(size, lead)
        step = size * 1.7
        rows = -(-len(self.choices) // self.columns)
        choices, parts = Part("L", marks="None"), [Part("LI") for _choice in self.choices]

        def paint(pen: Pen, x: float, y: float) -> None:
            base = y + look.first_baseline(size)
            pen.text(x, base, question, size, "bold")
            pen.open(choices)
            for number, choice in enumerate(self.choices):
                row, column = divmod(number, self.columns)
                pen.open(parts[number])
                _tick(pen, choice, x + starts[column], base + row * step, size)
                pen.close()
            pen.close()

        return Laid((rows - 1) * step + look.leading(size), paint)

    def _starts(self, size: float, lead: float) -> list[float]:
        starts, x = [], lead
        for column in range(self.columns):
            starts.append(x)
            x += max((_tick_width(choice, size) for choice in self.choices[column :: self.columns]), default=0.0) + 26
        return starts


def _tick_width(choice: Choice, size: float) -> float:
    written = choice.line + 6 if choice.line else 0
    return TICK + 7 + width(printable(choice.words)) * size + written


def _tick(pen: Pen, choice: Choice, x: float, base: float, size: float) -> None:
    words = printable(choice.words)
    pen.open(_BOX)
    pen.frame(x, base - TICK + 1.5, TICK, TICK, thick=0.9)
    pen.close()
    pen.open(_SAID)
    pen.text(x + TICK + 7, base, words, size)
    if choice.line:
        start = x + TICK + 13 + width(words) * size
        pen.write_on(start, base + 2, start + choice.line)
    pen.close()


@dataclass(frozen=True)
class WriteIn:
    """A label and a line to write on, to the right edge. What is already known is printed on the line instead."""

    label: str
    known: str = ""
    before: float = 0.6

    def lay(self, measure: float, look: Look) -> Laid:
        size = look.size
        label = printable(self.label)
        start = width(label) * size + 7
        said = set_lines(break_lines(self.known, measure - start, size, "bold"), size, look)
        base = look.first_baseline(size)

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.text(x, y + base, label, size)
            if said.height:
                said.paint(pen, x + start, y)
            else:
                pen.write_on(x + start, y + base + 2, x + max(measure, start + SHORTEST_LINE))

        return tagged(Laid(max(said.height, look.leading(size)), paint), Part("P"))


@dataclass(frozen=True)
class CutStrip:
    """Blocks below a dashed line across the whole sheet, to be cut off and handed back.

    At least `least` points high, so that a strip on the back of another is cut at the same line.
    """

    blocks: tuple[Block, ...]
    side: float
    before: float = 0
    least: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        inside = pile(rows_of(self.blocks, measure, look))
        over = 14.0

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.dashed(x - self.side + 18, y + HAIRLINE, x + measure + self.side - 18)
            inside.paint(pen, x, y + over)

        return Laid(max(inside.height + over, self.least), paint)


@dataclass(frozen=True)
class Boxes:
    """So many boxes to tick, five and five together, ten in a group, as many beside each other as there is room for."""

    count: int
    side: float = 15.0
    before: float = 0.5

    def lay(self, measure: float, look: Look) -> Laid:
        step, between = self.side + 3, 8.0
        five = 5 * step + between
        across = 5 * max(1, int((measure + between) // five))
        rows = -(-self.count // across)

        def paint(pen: Pen, x: float, y: float) -> None:
            for number in range(self.count):
                row, place = divmod(number, across)
                left = x + place * step + place // 5 * between
                pen.frame(left, y + row * (step + 3), self.side, self.side, thick=0.9)

        return tagged(Laid(rows * (step + 3), paint), Part("Figure", alt=f"{self.count} × {EMPTY_BOX}"))


@dataclass(frozen=True)
class Signatures:
    """Lines to sign on beside each other, each with who signs under it and a line for the day."""

    who: tuple[str, ...]
    day: str
    before: float = 1.6
    gutter: float = 20

    def lay(self, measure: float, look: Look) -> Laid:
        wide = (measure - self.gutter * (len(self.who) - 1)) / len(self.who)
        size = max(look.size - 1, 11.0)
        under = [set_lines(break_lines(name, wide, size), size, look) for name in self.who]
        room, label = 26.0, printable(self.day)
        parts = [Part("P") for _name in self.who]
        dated = max(laid.height for laid in under) + room + size * 1.9

        def paint(pen: Pen, x: float, y: float) -> None:
            for place, laid in enumerate(under):
                left = x + place * (wide + self.gutter)
                pen.open(parts[place])
                pen.write_on(left, y + room, left + wide)
                laid.paint(pen, left, y + room + 3)
                pen.text(left, y + dated - 3, label, size)
                pen.write_on(left + width(label) * size + 6, y + dated - 1, left + wide)
                pen.close()

        return Laid(dated + 2, paint)
