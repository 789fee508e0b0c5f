"""A frame with its number: where something on a sheet should come to lie."""

from __future__ import annotations

from dataclasses import dataclass

from outreach.page.laid import Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import HAIRLINE, Pen
from outreach.page.text import Line, Look, break_lines

SMALLEST = 6.5
LARGEST = 9.0


@dataclass(frozen=True)
class Outline:
    """A frame as wide as the measure and `height` high, a number in its corner, and words that fit inside."""

    number: str
    words: str
    height: float
    pad: float
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        lines, size = self.fitted(measure)

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.frame(x, y, measure, self.height, thick=HAIRLINE)
            pen.open(Part("P"))
            pen.lines(x + self.pad, y + self.pad + size, lines, size, size * 1.15)
            pen.close()

        return tagged(Laid(self.height, paint), Part("Sect"))

    def fitted(self, measure: float) -> tuple[tuple[Line, ...], float]:
        """The lines and their size; words that do not fit are left out, the number stays."""
        text = f"{self.number} · {self.words}" if self.words else self.number
        room = self.height - 2 * self.pad
        for half in range(int(LARGEST * 2), int(SMALLEST * 2) - 1, -1):
            lines = break_lines(text, measure - 2 * self.pad, half / 2)
            if (len(lines) * 1.15 + 0.1) * half / 2 <= room:
                return lines, half / 2
        return break_lines(self.number, measure, SMALLEST)[:1], SMALLEST
