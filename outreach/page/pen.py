"""Draws in plain PDF operators: text, rules, frames, cells, pictures. Lengths in points, y from the top.

Grey-copier safe by what it offers: black, and one light grey for hairlines.
"""

from collections.abc import Iterable

from outreach.page.fonts import Face, width
from outreach.page.parts import Drawn, Event, Kind, Leaf, Opened, Part
from outreach.page.pictures import Picture
from outreach.page.store import Store
from outreach.page.text import Line, Span

HAIRLINE = 0.6
LIGHT_GREY = 0.62
"""For hairlines only; no text stands on it."""
BLANK = "blank"
"""What a listener hears of a line to write on."""


class Pen:
    """Collects what is drawn on one page or shape, each piece with the part of the sheet that it belongs to.

    `top` is the height, from the lower edge, at which y is 0. Text that no block gave a part is a paragraph of its own;
    rules, frames and pictures are ornament, unless the part says what is read in their place.
    """

    def __init__(self, store: Store, top: float) -> None:
        self.store = store
        self.top = top
        self.events: list[Event] = []
        self._open: list[Part] = []
        self._repeating = False

    def open(self, part: Part, further: bool = False) -> None:
        if not self._repeating:
            self.events.append(Opened(part, further))
            self._open.append(part)

    def close(self) -> None:
        if self._repeating:
            return
        part, events = self._open.pop(), self.events
        last, before = events[-1], events[-2] if len(events) > 1 else None
        if type(last) is Drawn and type(before) is Opened and before.part is part and last.kind == "read":
            events[-2:] = (Leaf(part, before.further, last.marks),)
        else:
            events.append(None)

    def repeating(self, on: bool) -> None:
        """What is drawn until it is off again was read already, or only counts pages."""
        self._repeating = on

    def _put(self, kind: Kind, mark: object) -> None:
        last = self.events[-1] if self.events else None
        if type(last) is Drawn and last.kind == kind:
            last.marks.append(mark)
        else:
            self.events.append(Drawn(kind, [mark]))

    def _write(self, mark: object) -> None:
        if self._repeating:
            self._put("repeated", mark)
        elif self._open:
            self._put("read", mark)
        else:
            self.events.append(Leaf(Part("P"), False, [mark]))

    def _draw(self, mark: object) -> None:
        told = self._open and self._open[-1].alt and not self._repeating
        self._put("read" if told else "ornament", mark)

    def lines(self, x: float, y: float, lines: Iterable[Line], size: float, leading: float) -> None:
        """Lines of text under each other; y is the baseline of the first, the next one stands `leading` lower."""
        shown = " T* ".join([self._shown(line, size) for line in lines])
        self._write(f"BT {leading:.2f} TL {x:.2f} {self.top - y:.2f} Td {shown} ET")

    def text(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        if text:
            self.lines(x, y, [(Span(text, face),)], size, 0)

    def text_right(self, x: float, y: float, text: str, size: float, face: Face = "regular") -> None:
        """Text that ends at x."""
        self.text(x - width(text, face) * size, y, text, size, face)

    def rule(self, x: float, y: float, to_x: float, to_y: float, *, thick: float = HAIRLINE, grey: float = 0) -> None:
        start, end = f"{x:.2f} {self.top - y:.2f}", f"{to_x:.2f} {self.top - to_y:.2f}"
        self._draw(f"q {thick:.2f} w {grey:.2f} G {start} m {end} l S Q")

    def write_on(self, x: float, y: float, to_x: float) -> None:
        """A line to write on by hand."""
        self.rule(x, y, to_x, y)

    def dashed(self, x: float, y: float, to_x: float) -> None:
        """A line to cut along."""
        level = f"{self.top - y:.2f}"
        self._draw(f"q 0.75 w 0 G [4 4] 0 d {x:.2f} {level} m {to_x:.2f} {level} l S Q")

    def frame(self, x: float, y: float, wide: float, high: float, *, thick: float = 1.0) -> None:
        self._draw(f"q {thick:.2f} w 0 G {x:.2f} {self.top - y - high:.2f} {wide:.2f} {high:.2f} re S Q")

    def cells(self, cells: Iterable[tuple[float, float, float, float]]) -> None:
        """Black rectangles (x, y of the upper left corner, width, height) in one stroke."""
        drawn = " ".join(f"{x:.3f} {self.top - y - high:.3f} {wide:.3f} {high:.3f} re" for x, y, wide, high in cells)
        if drawn:
            self._draw(f"q 0 g {drawn} f Q")

    def picture(self, picture: Picture, x: float, y: float, wide: float, high: float) -> None:
        name = self.store.picture(picture)
        self._draw(f"q {wide:.2f} 0 0 {high:.2f} {x:.2f} {self.top - y - high:.2f} cm /{name} Do Q")

    def ghost(self, x: float, y: float, text: str, size: float, slope: tuple[float, float]) -> None:
        """Outlined letters that text stays readable through; `slope` is (cosine, sine) of their direction."""
        cosine, sine = slope
        shown = self._shown((Span(text, "bold"),), size)
        self._write(
            f"q 0.50 w {LIGHT_GREY} G BT 1 Tr {cosine:.4f} {sine:.4f} {-sine:.4f} {cosine:.4f} "
            f"{x:.2f} {self.top - y:.2f} Tm {shown} ET Q"
        )

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
    """A pen that writes down the words instead of drawing them: lines of text, and `BLANK` for a line to write on."""

    def __init__(self, store: Store) -> None:
        super().__init__(store, 0)
        self.heard: list[str] = []

    def lines(self, x: float, y: float, lines: Iterable[Line], size: float, leading: float) -> None:
        heard = tuple(lines)
        self.heard.extend("".join(span.text for span in line) for line in heard)
        self._write(heard)

    def write_on(self, x: float, y: float, to_x: float) -> None:
        if self._open:
            self._put("read", BLANK)

    def cells(self, cells: Iterable[tuple[float, float, float, float]]) -> None:
        self._draw(tuple(cells))

    def picture(self, picture: Picture, x: float, y: float, wide: float, high: float) -> None:
        self._draw(picture)
