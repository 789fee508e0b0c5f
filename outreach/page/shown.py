"""A picture in the run of a text, small, with its words below."""

from dataclasses import dataclass

from outreach.page.blocks import set_lines
from outreach.page.fonts import printable
from outreach.page.laid import Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import Pen
from outreach.page.pictures import Picture
from outreach.page.text import Look, break_lines

SHOWN_WIDTH, SHOWN_HEIGHT = 216.0, 150.0
"""Three inches at most: a letter that shows something, not a poster."""
SHOWN_PIXELS = 640
"""Longest side: 213 dots an inch, more than a photo shows on a school printer."""
CAPTION, GAP = 11, 3


@dataclass(frozen=True)
class Shown:
    """A picture with a fine frame, so that a bright one keeps its edge on a grey copier, and `said` below it."""

    picture: Picture
    said: str
    before: float = 1.0

    def lay(self, measure: float, look: Look) -> Laid:
        wide, high = self.picture.fitted(min(SHOWN_WIDTH, measure), SHOWN_HEIGHT)
        caption = tagged(set_lines(break_lines(self.said, measure, CAPTION), CAPTION, look), Part("P"))
        figure = Part("Figure", alt=printable(self.said) or "▢")

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.open(figure)
            pen.picture(self.picture, x, y, wide, high)
            pen.frame(x, y, wide, high, thick=0.5)
            pen.close()
            caption.paint(pen, x, y + high + GAP)

        return Laid(high + GAP + caption.height, paint)
