"""A code to scan, drawn as black cells, and the school contact that it carries."""

from dataclasses import dataclass
from functools import lru_cache

import segno

from outreach.page.blocks import set_lines
from outreach.page.fonts import tidy
from outreach.page.laid import NOTHING, Laid, tagged
from outreach.page.paper import INCH
from outreach.page.parts import Part
from outreach.page.pen import Pen
from outreach.page.text import Look, break_lines

QUIET = 4
"""White modules on each side (ISO/IEC 18004)."""
SMALLEST_MODULE = 4 / 300 * INCH
"""Four printer dots at 300 dots an inch, 0.34 mm."""
USUAL_SIDE = 1.1 * INCH
CAPTION = 11.0
_SAID = ("FN", "ORG", "TEL", "EMAIL")


def contact_card(name: str, organisation: str = "", phone: str = "", email: str = "") -> str:
    """A vCard 3.0 (RFC 2426) of a few lines: a phone offers "add to contacts" from it without any network.

    A card is chosen over a mail or phone address because one code then serves both and asks nothing of the internet;
    that phones' cameras read version 3.0 best is common practice. The name stands whole in the given-name part: which
    part of a name is the family's cannot be told from outside. Only a school's contact belongs here.
    """
    lines = ["BEGIN:VCARD", "VERSION:3.0", f"N:;{_escaped(name)};;;", f"FN:{_escaped(name)}"]
    for key, value in (("ORG", organisation), ("TEL", phone), ("EMAIL", email)):
        if value:
            lines.append(f"{key}:{_escaped(value)}")
    return "\r\n".join([*lines, "END:VCARD"]) + "\r\n"


def _escaped(value: str) -> str:
    """RFC 2426 section 4: backslash, comma and semicolon are escaped; line ends are gone already."""
    return tidy(value).replace("\\", "\\\\").replace(",", "\\,").replace(";", "\\;")


# To find a code takes most of the time of a sheet, and the sheets of a batch all carry the same.
@lru_cache(maxsize=8)
def _cells(data: str) -> tuple[bytes, ...]:
    """The rows of the code, a byte for each cell; none where there is nothing to say, or too much."""
    if not data:
        return ()
    try:
        code = segno.make(data, error="m", micro=False, boost_error=False, encoding="utf-8")
    except segno.DataOverflowError:
        return ()
    return tuple(bytes(row) for row in code.matrix)


@dataclass(frozen=True)
class Qr:
    """The code of some data with a caption under it. Without data, or with more than a code can hold, it vanishes."""

    data: str
    caption: str = ""
    before: float = 0

    @property
    def _rows(self) -> tuple[bytes, ...]:
        return _cells(self.data)

    @property
    def said(self) -> str:
        """What the code holds, for who cannot scan it: the lines of a contact card without their names."""
        lines = [line.partition(":") for line in self.data.splitlines()]
        held = [value.replace("\\,", ",").replace("\\;", ";") for name, _colon, value in lines if name in _SAID]
        return f"{self.caption}: {', '.join(held) or self.data}".removeprefix(": ")

    @property
    def module(self) -> float:
        """Side of one cell in points, never under four printer dots."""
        return max(USUAL_SIDE / (len(self._rows) + 2 * QUIET), SMALLEST_MODULE)

    @property
    def wide(self) -> float:
        """Width in points with the quiet zone on the left; on the right the page's margin is the quiet zone."""
        return self.module * (len(self._rows) + QUIET) if self._rows else 0.0

    def lay(self, measure: float, look: Look) -> Laid:
        if not self._rows:
            return NOTHING
        quiet = QUIET * self.module
        lines = break_lines(self.caption, self.wide, CAPTION)
        caption = tagged(set_lines(lines, CAPTION, look, "right", self.wide), Part("P"))
        code = Part("Figure", alt=self.said)
        high = self.wide + quiet

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.open(code)
            pen.cells([(x + left, y + top, wide, self.module) for left, top, wide in self._runs()])
            pen.close()
            caption.paint(pen, x, y + high)

        return Laid(high + caption.height, paint)

    def _runs(self) -> list[tuple[float, float, float]]:
        """Neighbouring black cells of a row as one: left, top, width in points from the code's corner."""
        runs = []
        for number, row in enumerate(self._rows):
            start = None
            for column, black in enumerate([*row, 0]):
                if black and start is None:
                    start = column
                elif not black and start is not None:
                    left, wide = (QUIET + start) * self.module, (column - start) * self.module
                    runs.append((left, (QUIET + number) * self.module, wide))
                    start = None
        return runs
