"""Draws on one sheet in plain PDF operators: text, rules, frames, cells, pictures. Lengths in points, y from the top.

Grey-copier safe by what it offers: black, and one light grey for hairlines.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import lru_cache

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from outreach.page.fonts import Face, font, width
from outreach.page.pictures import Picture
from outreach.page.text import Line, Span

HAIRLINE = 0.6
LIGHT_GREY = 0.62
"""For hairlines only; no text stands on it."""


def _escaped(text: str) -> str:
    return text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")


@lru_cache(maxsize=16)
def _reader(picture: Picture) -> ImageReader:
    return ImageReader(picture.image())


class Pen:
    """Writes operators to a canvas. `top` is the height, from the lower edge, at which y is 0."""

    def __init__(self, canvas: Canvas, top: float) -> None:
        self.canvas = canvas
        self.top = top
        self._ascii: dict[Face, str] = {}

    def lines(self, x: float, y: float, lines: Iterable[Line], size: float, leading: float) -> None:
        """Lines of text under each other; y is the baseline of the first, the next one stands `leading` lower."""
        shown = " T* ".join([self._shown(line, size) for line in lines])
        self.canvas.addLiteral(f"BT {leading:.2f} TL {x:.2f} {self.top - y:.2f} Td {shown} ET")

    def text(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        if text:
            self.lines(x, y, [(Span(text, face),)], size, 0)

    def text_right(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        """Text that ends at x."""
        self.text(x - width(text, face) * size, y, text, size, face)

    def rule(self, x: float, y: float, to_x: float, to_y: float, *, thick: float = HAIRLINE, grey: float = 0) -> None:
        self.canvas.addLiteral(
            f"q {thick:.2f} w {grey:.2f} G {x:.2f} {self.top - y:.2f} m {to_x:.2f} {self.top - to_y:.2f} l S Q"
        )

    def dashed(self, x: float, y: float, to_x: float) -> None:
        """A line to cut along."""
        level = self.top - y
        self.canvas.addLiteral(f"q 0.75 w 0 G [4 4] 0 d {x:.2f} {level:.2f} m {to_x:.2f} {level:.2f} l S Q")

    def frame(self, x: float, y: float, wide: float, high: float, *, thick: float = 1.0) -> None:
        self.canvas.addLiteral(f"q {thick:.2f} w 0 G {x:.2f} {self.top - y - high:.2f} {wide:.2f} {high:.2f} re S Q")

    def cells(self, cells: Iterable[tuple[float, float, float, float]]) -> None:
        """Black rectangles (x, y of the upper left corner, width, height) in one stroke."""
        drawn = " ".join(f"{x:.3f} {self.top - y - high:.3f} {wide:.3f} {high:.3f} re" for x, y, wide, high in cells)
        if drawn:
            self.canvas.addLiteral(f"q 0 g {drawn} f Q")

    def picture(self, picture: Picture, x: float, y: float, wide: float, high: float) -> None:
        self.canvas.drawImage(_reader(picture), x, self.top - y - high, wide, high)

    def ghost(self, x: float, y: float, text: str, size: float, slope: tuple[float, float]) -> None:
        """Outlined letters that text stays readable through; `slope` is (cosine, sine) of their direction."""
        cosine, sine = slope
        shown = self._shown((Span(text, "bold"),), size)
        self.canvas.addLiteral(
            f"q 0.50 w {LIGHT_GREY} G BT 1 Tr {cosine:.4f} {sine:.4f} {-sine:.4f} {cosine:.4f} "
            f"{x:.2f} {self.top - y:.2f} Tm {shown} ET Q"
        )

    @contextmanager
    def shape(self, name: str, box: tuple[float, float, float, float]) -> Iterator["Pen"]:
        """A pen whose drawing becomes the reusable shape `name`; y is 0 at the shape's upper edge.

        `box` is (left, lowest, right, highest) in points around that edge; what lies outside is cut off.
        """
        self.canvas.beginForm(name, *box)
        recorder = Pen(self.canvas, top=0)
        yield recorder
        self.canvas.endForm()

    def stamp(self, name: str, x: float, y: float) -> None:
        """Draws a shape with its upper left corner at (x, y)."""
        self.canvas.addLiteral(f"q 1 0 0 1 {x:.2f} {self.top - y:.2f} cm")
        self.canvas.doForm(name)
        self.canvas.addLiteral("Q")

    def _shown(self, line: Line, size: float) -> str:
        if len(line) == 1 and line[0].text.isascii():
            text, face = line[0]
            return f"{self._ascii_font(face)} {size:g} Tf ({_escaped(text)}) Tj"
        return " ".join([self._piece(span, size) for span in line])

    def _piece(self, span: Span, size: float) -> str:
        if span.text.isascii():
            return f"{self._ascii_font(span.face)} {size:g} Tf ({_escaped(span.text)}) Tj"
        document, loaded = self.canvas._doc, font(span.face)
        return " ".join(
            f"{loaded.getSubsetInternalName(subset, document)} {size:g} Tf <{codes.hex()}> Tj"
            for subset, codes in loaded.splitString(span.text, document)
        )

    def _ascii_font(self, face: Face) -> str:
        """Name of the subset that holds ASCII at its own codes, so that plain text needs no table."""
        name = self._ascii.get(face)
        if name is None:
            loaded = font(face)
            loaded.splitString("", self.canvas._doc)
            name = self._ascii[face] = loaded.getSubsetInternalName(0, self.canvas._doc)
        return name
