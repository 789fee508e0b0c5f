"""Who receives: the address inside the clear part of a #10 window, and the mark where the sheet is folded."""

import unicodedata
from dataclasses import dataclass

from outreach.page.fonts import DESCENT, TALLEST, TALLEST_ACCENT, printable
from outreach.page.laid import NOTHING, Laid, tagged
from outreach.page.parts import Part
from outreach.page.pen import LIGHT_GREY, Pen
from outreach.page.text import Line, Look, break_lines

CAPITALS = 0.72
"""Height of capitals, in sizes."""


@dataclass(frozen=True)
class Address:
    """Where a letter goes: the person, the business, street lines, and the last line's three parts."""

    person: str = ""
    business: str = ""
    street: tuple[str, ...] = ()
    city: str = ""
    state: str = ""
    zip_code: str = ""

    @property
    def complete(self) -> bool:
        """Whether the post can deliver it: a name, a street and a last line."""
        return bool((self.person or self.business) and any(self.street) and self.city and self.state and self.zip_code)

    def lines(self) -> tuple[str, ...]:
        """Lines from the name down; empty ones vanish."""
        last = last_line(self.city, self.state, self.zip_code)
        return tuple(line for line in (self.person, self.business, *self.street, last) if line)


def last_line(city: str, state: str, zip_code: str) -> str:
    """City, state and ZIP code as USPS Publication 28 prints them: capitals, no comma, two spaces before the code.

    >>> last_line("Memphis", "TN", "38188-1001")
    'MEMPHIS TN  38188-1001'
    """
    place = " ".join(f"{city} {state}".replace(",", " ").replace(".", " ").upper().split())
    return "  ".join(part for part in (place, zip_code.strip()) if part)


@dataclass(frozen=True)
class WindowAddress:
    """The address set to fit the clear part of the window: 11 points, smaller where it must, never under 8.

    USPS asks for type of at least 8 points (DMM 202). When even that is too much, the person's line goes first;
    the letter still greets them. On a label `largest` may be another size, and `middle` leaves as much room above it
    as below.
    """

    address: Address
    height: float
    before: float = 0
    largest: float = 11.0
    middle: bool = False

    def lay(self, measure: float, look: Look) -> Laid:
        lines, size, step = self.fitted(measure)
        if not lines:
            return NOTHING
        top = _rise(lines[0]) * size
        if self.middle:
            # By the height of capitals, so that names beside each other stand on one line, accents or not.
            spare = self.height - DESCENT * size - (len(lines) - 1) * step
            top = min(max(top, (self.height - (len(lines) - 1) * step + CAPITALS * size) / 2), spare)
        return tagged(Laid(self.height, lambda pen, x, y: pen.lines(x, y + top, lines, size, step)), Part("P"))

    def fits(self, measure: float) -> bool:
        """Whether every line of the address is inside."""
        lines, size, step = self.fitted(measure)
        whole = "".join("".join(printable(line).split()) for line in self.address.lines())
        shown = "".join("".join(span.text.split()) for line in lines for span in line)
        return shown == whole and _high(lines, size, step) <= self.height + 0.01

    def fitted(self, measure: float) -> tuple[list[Line], float, float]:
        """Lines, size and distance of baselines, in points."""
        wanted = self.address.lines()
        without_person = wanted[1:] if self.address.person and self.address.business else wanted
        for texts in (wanted, without_person):
            for size in _sizes(self.largest):
                lines = [line for text in texts for line in _address_lines(text, measure, size)]
                for step in (size * 1.22, size * 1.1):
                    if _high(lines, size, step) <= self.height:
                        return lines, size, step
        step = 8 * 1.1
        while lines and _high(lines, 8.0, step) > self.height:
            lines.pop(-2 if len(lines) > 1 else 0)
        return lines, 8.0, step


def _sizes(largest: float) -> list[float]:
    """From the largest down to 8 points, in halves under 12."""
    whole = [float(size) for size in range(int(largest), 11, -1)]
    return [*whole, *(half / 2 for half in range(int(min(largest, 11.0) * 2), 15, -1))]


def _address_lines(text: str, measure: float, size: float) -> tuple[Line, ...]:
    """Like any text, but the two spaces before a ZIP code stay."""
    return break_lines(text.replace("  ", " \u00a0"), measure, size)


def _rise(line: Line) -> float:
    """Height of the first line above its baseline, in sizes; capitals with accents need more."""
    text = "".join([span.text for span in line])
    if text.isascii():
        return TALLEST
    text = unicodedata.normalize("NFD", text)
    return TALLEST_ACCENT if any(unicodedata.combining(sign) for sign in text) else TALLEST


def _high(lines: list[Line], size: float, step: float) -> float:
    if not lines:
        return 0.0
    return _rise(lines[0]) * size + (len(lines) - 1) * step + DESCENT * size


@dataclass(frozen=True)
class FoldMark:
    """Two short hairlines at the sheet's edges where it is folded first, four inches from the top."""

    paper_width: float
    before: float = 0

    def lay(self, measure: float, look: Look) -> Laid:
        def paint(pen: Pen, x: float, y: float) -> None:
            for start in (x + 18, x + self.paper_width - 36):
                pen.rule(start, y, start + 18, y, grey=LIGHT_GREY)

        return Laid(1, paint)
