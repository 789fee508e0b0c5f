"""Measures of label sheets: some ready-made ones in plain numbers, and a grid from what was typed. Pure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from outreach.page import INCH, LabelGrid, paper
from outreach.page.paper import MILLIMETRE

UNITS = {"in": INCH, "mm": MILLIMETRE}
LENGTHS = ("width", "height", "left", "top", "gap_across", "gap_down")


@dataclass(frozen=True)
class Measures:
    """As they are read off a sheet of labels: lengths in `unit`."""

    paper: str
    unit: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    gap_across: float = 0
    gap_down: float = 0

    @property
    def count(self) -> int:
        return self.columns * self.rows

    @property
    def size(self) -> str:
        """
        >>> Measures("letter", "in", 3, 10, 2.625, 1, 0, 0).size, Measures("a4", "mm", 3, 7, 63.5, 38.1, 0, 0).size
        ('2 5/8 × 1 in', '63.5 × 38.1 mm')
        """
        return f"{_read(self.width, self.unit)} × {_read(self.height, self.unit)} {self.unit}"


def _read(length: float, unit: str) -> str:
    if unit == "mm":
        return f"{length:g}"
    exact = Fraction(length).limit_denominator(16)
    whole, rest = divmod(exact, 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"


def grid_of(measures: Measures) -> LabelGrid:
    """The grid in points. Its page has no margins of its own: those of the labels count."""
    page = replace(paper(measures.paper), side=0, top=0, bottom=0)
    points = {name: getattr(measures, name) * UNITS[measures.unit] for name in LENGTHS}
    return LabelGrid(page=page, columns=measures.columns, rows=measures.rows, **points)


_THIRD, _SIXTH, _TWELFTH = 1 / 3, 1 / 6, 1 / 12
READY: dict[str, tuple[Measures, ...]] = {
    "letter": (
        Measures("letter", "in", 3, 10, 2.625, 1, 0.1875, 0.5, 0.125),
        Measures("letter", "in", 2, 10, 4, 1, 0.15625, 0.5, 0.1875),
        Measures("letter", "in", 2, 7, 4, 1 + _THIRD, 0.15625, 5 * _SIXTH, 0.1875),
        Measures("letter", "in", 2, 5, 4, 2, 0.15625, 0.5, 0.1875),
        Measures("letter", "in", 2, 3, 4, 3 + _THIRD, 0.15625, 0.5, 0.1875),
        Measures("letter", "in", 2, 4, 3.375, 2 + _THIRD, 0.6875, 7 * _TWELFTH, 0.375, _SIXTH),
        Measures("letter", "in", 4, 20, 1.75, 0.5, 0.28125, 0.5, 0.3125),
    ),
    "a4": (
        Measures("a4", "mm", 3, 7, 63.5, 38.1, 7.2, 15.15, 2.55),
        Measures("a4", "mm", 3, 8, 63.5, 33.9, 7.2, 12.9, 2.55),
        Measures("a4", "mm", 2, 7, 99.1, 38.1, 4.65, 15.15, 2.5),
        Measures("a4", "mm", 2, 4, 99.1, 67.7, 4.65, 13.1, 2.5),
        Measures("a4", "mm", 3, 8, 70, 37, 0, 0.5),
        Measures("a4", "mm", 2, 5, 86.5, 55.5, 17, 8.75, 3, 0.5),
        Measures("a4", "mm", 5, 13, 38.1, 21.2, 4.75, 10.7, 2.5),
    ),
}
"""What boxes of labels commonly say, the first of them the default. All lie in the middle of their sheet."""
