"""A sheet of labels by its measures: how many beside and under each other, how large, where the first begins."""

from __future__ import annotations

from dataclasses import dataclass

from outreach.page.paper import Box, Paper

TOLERANCE = 0.75
"""Points by which measures may not add up: they are read off a box in eighths of an inch or tenths of a millimetre."""
SMALLEST_WIDE, SMALLEST_HIGH = 54.0, 26.0
"""Points: nothing that can be read fits on a smaller label."""
MOST_PAD = 9.0


@dataclass(frozen=True)
class LabelGrid:
    """Lengths in points. `left` and `top` are the margins before the first label, gaps lie between neighbours."""

    page: Paper
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
        """Labels on one sheet."""
        return self.columns * self.rows

    @property
    def too_wide(self) -> float:
        """Points by which the columns run off the sheet; 0 when they fit."""
        taken = self.left + self.columns * self.width + (self.columns - 1) * self.gap_across
        return _over(taken, self.page.width)

    @property
    def too_high(self) -> float:
        """Points by which the rows run off the sheet; 0 when they fit."""
        taken = self.top + self.rows * self.height + (self.rows - 1) * self.gap_down
        return _over(taken, self.page.height)

    @property
    def pad(self) -> float:
        """What stays free at the edges of a label, since no printer feeds a sheet in quite straight."""
        return min(MOST_PAD, self.width * 0.06, self.height * 0.09)

    def box(self, place: int) -> Box:
        """The label at a place, counted from 0, line by line."""
        down, across = divmod(place, self.columns)
        left = self.left + across * (self.width + self.gap_across)
        top = self.top + down * (self.height + self.gap_down)
        return Box(left, top, left + self.width, top + self.height)

    def inside(self, place: int) -> Box:
        """The part of a label that is printed on."""
        left, top, right, bottom = self.box(place)
        return Box(left + self.pad, top + self.pad, right - self.pad, bottom - self.pad)

    def sheets(self, count: int, start: int = 1) -> int:
        """How many sheets so many labels take when the first stands at place `start`, counted from 1."""
        return -(-(count + start - 1) // self.count) if count else 0


def _over(taken: float, there: float) -> float:
    return max(0.0, taken - there) if taken > there + TOLERANCE else 0.0
