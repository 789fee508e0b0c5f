"""Draws in plain PDF operators: text, rules, frames, cells, pictures. Lengths in points, y from the top.

Grey-copier safe by what it offers: black, and one light grey for hairlines.
"""

from collections.abc import Iterable

from outreach.page.fonts import Face, width
from outreach.page.pictures import Picture
from outreach.page.store import Store
from outreach.page.text import Line, Span

HAIRLINE = 0.6
LIGHT_GREY = 0.62
"""For hairlines only; no text stands on it."""


class Pen:
    """Collects the operators of one page or shape. `top` is the height, from the lower edge, at which y is 0."""

    def __init__(self, store: Store, top: float) -> None:
        self.store = store
        self.top = top
        self.operators: list[str] = []

    def lines(self, x: float, y: float, lines: Iterable[Line], size: float, leading: float) -> None:
        """Lines of text under each other; y is the baseline of the first, the next one stands `leading` lower."""
        shown = " T* ".join([self._shown(line, size) for line in lines])
        self.operators.append(f"BT {leading:.2f} TL {x:.2f} {self.top - y:.2f} Td {shown} ET")

    def text(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        if text:
            self.lines(x, y, [(Span(text, face),)], size, 0)

    def text_right(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        """Text that ends at x."""
        self.text(x - width(text, face) * size, y, text, size, face)

    def rule(self, x: float, y: float, to_x: float, to_y: float, *, thick: float = HAIRLINE, grey: float = 0) -> None:
        start, end = f"{x:.2f} {self.top - y:.2f}", f"{to_x:.2f} {self.top - to_y:.2f}"
        self.operators.append(f"q {thick:.2f} w {grey:.2f} G {start} m {end} l S Q")

    def dashed(self, x: float, y: float, to_x: float) -> None:
        """A line to cut along."""
        level = f"{self.top - y:.2f}"
        self.operators.append(f"q 0.75 w 0 G [4 4] 0 d {x:.2f} {level} m {to_x:.2f} {level} l S Q")

    def frame(self, x: float, y: float, wide: float, high: float, *, thick: float = 1.0) -> None:
        self.operators.append(f"q {thick:.2f} w 0 G {x:.2f} {self.top - y - high:.2f} {wide:.2f} {high:.2f} re S Q")

    def cells(self, cells: Iterable[tuple[float, float, float, float]]) -> None:
        """Black rectangles (x, y of the upper left corner, width, height) in one stroke."""
        drawn = " ".join(f"{x:.3f} {self.top - y - high:.3f} {wide:.3f} {high:.3f} re" for x, y, wide, high in cells)
        if drawn:
            self.operators.append(f"q 0 g {drawn} f Q")

    def picture(self, picture: Picture, x: float, y: float, wide: float, high: float) -> None:
        name = self.store.picture(picture)
        self.operators.append(f"q {wide:.2f} 0 0 {high:.2f} {x:.2f} {self.top - y - high:.2f} cm /{name} Do Q")

    def ghost(self, x: float, y: float, text: str, size: float, slope: tuple[float, float]) -> None:
        """Outlined letters that text stays readable through; `slope` is (cosine, sine) of their direction."""
        cosine, sine = slope
        shown = self._shown((Span(text, "bold"),), size)
        self.operators.append(
            f"q 0.50 w {LIGHT_GREY} G BT 1 Tr {cosine:.4f} {sine:.4f} {-sine:.4f} {cosine:.4f} "
            f"{x:.2f} {self.top - y:.2f} Tm {shown} ET Q"
        )

    def stamp(self, shape: str, x: float, y: float) -> None:
        """Draws a shape with its upper left corner at (x, y)."""
        self.operators.append(f"q 1 0 0 1 {x:.2f} {self.top - y:.2f} cm /{shape} Do Q")

    def _shown(self, line: Line, size: float) -> str:
        if len(line) == 1:
            return self._piece(line[0], size)
        return " ".join([self._piece(span, size) for span in line])

    def _piece(self, span: Span, size: float) -> str:
        text, face = span
        if text.isascii():
            literal = text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
            return f"{self.store.font_of_ascii(face)} {size:g} Tf ({literal}) Tj"
        pieces = self.store.subsets(text, face)
        return " ".join(f"{name} {size:g} Tf <{codes.hex()}> Tj" for name, codes in pieces)


class Listener(Pen):
    """A pen that writes down the words instead of drawing them."""

    def __init__(self, store: Store) -> None:
        super().__init__(store, 0)
        self.heard: list[str] = []

    def lines(self, x: float, y: float, lines: Iterable[Line], size: float, leading: float) -> None:
        self.heard.extend("".join(span.text for span in line) for line in lines)
