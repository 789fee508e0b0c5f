"""Who writes: the school's letterhead above, the sign-off below."""

from collections.abc import Sequence
from dataclasses import dataclass

from outreach.page.blocks import set_lines
from outreach.page.fonts import printable, width
from outreach.page.laid import NOTHING, Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import Pen
from outreach.page.pictures import Picture
from outreach.page.text import Line, Look, Span, break_lines, line_width

LOGO_WIDTH, LOGO_HEIGHT = 130.0, 56.0
SIGNATURE_WIDTH, SIGNATURE_HEIGHT = 180.0, 44.0
LIVE_SIGNATURE = 44.0


@dataclass(frozen=True)
class Letterhead:
    """A school as it writes itself: name, address lines as printed, phone, and its picture if it has one.

    The picture stands beside the name, in a box of its own; one that holds name and address itself stands `alone`, as
    wide as the text. Neither takes the head down into an envelope's window.
    """

    school: str
    address: tuple[str, ...] = ()
    phone: str = ""
    logo: Picture | None = None
    alone: bool = False
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        if self.logo and self.alone:
            return self._picture_alone(self.logo, measure)
        wide, high = self.logo.fitted(LOGO_WIDTH, LOGO_HEIGHT) if self.logo else (0.0, 0.0)
        indent = wide + 16 if self.logo else 0.0
        size = next((size for size in (17, 16, 15) if self._name_width() * size <= measure - indent), 14)
        name = tagged(set_lines(break_lines(self.school, measure - indent, size, "bold"), size, look), Part("P"))
        lines = tagged(set_lines(_dotted((*self.address, self.phone), measure - indent), 11, look), Part("P"))
        text_height = name.height + lines.height
        if not text_height and not self.logo:
            return NOTHING
        tallest = max(text_height, high)
        sign = Part("Figure", alt=printable(self.school) or "▢")

        def paint(pen: Pen, x: float, y: float) -> None:
            if self.logo:
                pen.open(sign)
                pen.picture(self.logo, x, y + (tallest - high) / 2, wide, high)
                pen.close()
            middle = y + (tallest - text_height) / 2
            name.paint(pen, x + indent, middle)
            lines.paint(pen, x + indent, middle + name.height)
            pen.rule(x, y + tallest + 8, x + measure, y + tallest + 8)

        return Laid(tallest + 9, paint)

    def _picture_alone(self, logo: Picture, measure: float) -> Laid:
        wide, high = logo.fitted(measure, LOGO_HEIGHT)
        said = ", ".join(printable(one) for one in (self.school, *self.address, self.phone) if one)
        sign = Part("Figure", alt=said or "▢")

        def paint(pen: Pen, x: float, y: float) -> None:
            pen.open(sign)
            pen.picture(logo, x, y, wide, high)
            pen.close()
            pen.rule(x, y + high + 8, x + measure, y + high + 8)

        return Laid(high + 9, paint)

    def _name_width(self) -> float:
        return width(printable(self.school), "bold")


def _dotted(items: Sequence[str], measure: float) -> list[Line]:
    """Items in lines, a dot between neighbours but never at a line's end."""
    lines: list[str] = []
    for item in (printable(one) for one in items):
        longer = f"{lines[-1]}  ·  {item}" if lines else item
        if item and lines and line_width((Span(longer),), 11) <= measure:
            lines[-1] = longer
        elif item:
            lines.extend(line[0].text for line in break_lines(item, measure, 11))
    return [(Span(line),) for line in lines]


@dataclass(frozen=True)
class SignOff:
    """Closing words, room for a live signature (or its picture), name and role."""

    closing: str
    name: str
    role: str = ""
    signature: Picture | None = None
    before: float = 0.9

    def lay(self, measure: float, look: Look) -> Laid:
        closing = tagged(set_lines(break_lines(self.closing, measure, look.size), look.size, look), Part("P"))
        name = tagged(set_lines(break_lines(self.name, measure, look.size, "bold"), look.size, look), Part("P"))
        role = tagged(set_lines(break_lines(self.role, measure, look.size), look.size, look), Part("P"))
        hand = Part("Figure", alt=printable(self.name) or printable(self.closing) or "✍")
        wide, high = self.signature.fitted(SIGNATURE_WIDTH, SIGNATURE_HEIGHT) if self.signature else (0.0, 0.0)

        def paint(pen: Pen, x: float, y: float) -> None:
            closing.paint(pen, x, y)
            y += closing.height
            if self.signature:
                pen.open(hand)
                pen.picture(self.signature, x, y + (LIVE_SIGNATURE - high) / 2, wide, high)
                pen.close()
            y += LIVE_SIGNATURE
            name.paint(pen, x, y)
            role.paint(pen, x, y + name.height)

        return Laid(closing.height + LIVE_SIGNATURE + name.height + role.height, paint)
