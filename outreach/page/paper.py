"""Sheets of paper: sizes, margins, the fold and what a window envelope shows. Lengths in points, y from the top."""

from dataclasses import dataclass
from typing import NamedTuple

INCH = 72.0
MILLIMETRE = INCH / 25.4


class Box(NamedTuple):
    """A rectangle on the sheet: left and right from the left edge, top and bottom from the upper edge."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top


@dataclass(frozen=True)
class Paper:
    """A sheet with its margins. A school printer leaves about a quarter of an inch at the edge unprinted."""

    name: str
    width: float
    height: float
    side: float = 1.0 * INCH
    top: float = 0.6 * INCH
    bottom: float = 0.65 * INCH

    @property
    def text_width(self) -> float:
        return self.width - 2 * self.side


LETTER = Paper("letter", 8.5 * INCH, 11 * INCH)
A4 = Paper("a4", 210 * MILLIMETRE, 297 * MILLIMETRE)
_PAPERS = {paper.name: paper for paper in (LETTER, A4)}


def paper(name: str) -> Paper:
    """The paper called "letter" or "a4"; ValueError for any other name."""
    try:
        return _PAPERS[name]
    except KeyError:
        raise ValueError(f"Paper is one of {', '.join(_PAPERS)}, not {name!r}.") from None


def sideways(sheet: Paper) -> Paper:
    """The paper with its long edge up, for what hangs on a wall."""
    return Paper(
        f"{sheet.name} sideways", sheet.height, sheet.width, side=0.6 * INCH, top=0.5 * INCH, bottom=0.5 * INCH
    )


# The #10 envelope (9-1/2 x 4-1/8 in) and its window: 1-1/8 x 4-1/2 in, 1/2 in from the bottom, 7/8 in from the left
# (manufacturer's sheet; some makers set it 1-3/8 in from the left, hence the argument).
ENVELOPE_WIDTH, ENVELOPE_HEIGHT = 9.5 * INCH, 4.125 * INCH
WINDOW_WIDTH, WINDOW_HEIGHT, WINDOW_UP = 4.5 * INCH, 1.125 * INCH, 0.5 * INCH
WINDOW_LEFT = 0.875 * INCH
FIRST_FOLD = 4.0 * INCH
"""Where the sheet is folded first. Exact thirds would leave the window only two and a half safe lines."""
SAFETY = 0.125 * INCH


def window_clear(sheet: Paper, window_left: float = WINDOW_LEFT) -> Box:
    """What shows through a #10 window wherever the folded sheet slides: the address goes inside.

    The sheet is narrower than the envelope and the folded panel lower, so it can slide; the window's two extreme
    places are intersected and an eighth of an inch kept on every side. On US Letter: x 1.000-4.250, y 2.625-3.375 in.
    """
    across, up = ENVELOPE_WIDTH - sheet.width, ENVELOPE_HEIGHT - FIRST_FOLD
    lower_edge = FIRST_FOLD - WINDOW_UP
    return Box(
        left=window_left + SAFETY,
        top=lower_edge + up - WINDOW_HEIGHT + SAFETY,
        right=window_left + WINDOW_WIDTH - across - SAFETY,
        bottom=lower_edge - SAFETY,
    )


def window_reach(sheet: Paper, window_left: float = WINDOW_LEFT) -> Box:
    """Everything that can ever show through the window: nothing but the address may stand here."""
    across, up = ENVELOPE_WIDTH - sheet.width, ENVELOPE_HEIGHT - FIRST_FOLD
    lower_edge = FIRST_FOLD - WINDOW_UP
    return Box(
        left=max(0.0, window_left - across),
        top=lower_edge - WINDOW_HEIGHT,
        right=min(sheet.width, window_left + WINDOW_WIDTH),
        bottom=lower_edge + up,
    )
