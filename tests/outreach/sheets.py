"""Facts for the documents' tests, all of invented Alder Falls, and a PDF read back in several ways."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from io import BytesIO
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import zxingcpp
from PIL import Image, ImageDraw
from pypdf import PdfReader

from outreach.documents import gratitude_letter, leave_behind
from outreach.page import Address, Letterhead, Picture, open_picture
from outreach.wording.counts import Item
from outreach.wording.gratitude import Thanks
from partners.gifts.gift_facts import Form

LONG_NAME = "Riverbend & Daughters Garden Center, Nursery, Feed and Seed of Alder Falls County"[:80]
LONG_PERSON = "Maximiliana Featherstonehaugh-Castellanos de la Vega y Montenegro Villavicencio"
SCHOOL = Letterhead("Millrace Elementary", ("12 Mill Street", "Alder Falls, OR 97000"), "(201) 555-0110")
LONG_SCHOOL = Letterhead(
    "Millrace Elementary School and Early Learning Center of the Alder Falls District",
    ("1200 North Mill Street, Building C, Suite 200", "Alder Falls, OR 97000-1234"),
    "(201) 555-0110",
)

SHEET = leave_behind.Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=date(2026, 10, 6),
    teacher="June Castellanos",
    role="art teacher",
    phone="(201) 555-0123",
    email="june.castellanos@example.org",
    partner="Riverbend Garden Center",
    contact="Dana Whitlock",
    grades="kindergarten to grade 5",
    students=604,
    asks=(Item("terracotta pots", 120, kind="4 inch, seconds welcome"),),
    smaller=Item("terracotta pots", 60),
    becomes="Each child paints a pot and grows basil in it",
    becomes_students=104,
    becomes_by=date(2027, 5, 14),
    needed_by=date(2027, 3, 5),
    offer_back="A window display decorated by our students",
    last_year="Your 80 pots went home as herb gardens with 76 students",
    tax_line="The district issues receipts; please ask your tax adviser",
    approved_by="Maria Ortega",
    approved_role="principal",
    approved_on=date(2026, 9, 14),
    back_on=date(2026, 10, 20),
)
GENERIC = replace(SHEET, partner="", contact="", last_year="")
BARE = leave_behind.Facts("en", "letter", Letterhead("Millrace Elementary"), date(2026, 10, 6), "June Castellanos")
LONG_SHEET = replace(
    SHEET,
    letterhead=LONG_SCHOOL,
    teacher=LONG_PERSON,
    role="visual arts teacher and program coordinator for two schools",
    email="maximiliana.featherstonehaugh-castellanos@alderfallsschools.example.org",
    partner=LONG_NAME,
    contact=LONG_PERSON,
    asks=(
        Item("terracotta pots with saucers", 120, kind="4 inch, seconds and chipped ones are welcome"),
        Item("potting soil, without fertilizer", 12, "bags", "about 20 quarts each"),
        Item("seed packets, basil or parsley", 120),
    ),
    becomes="Each child paints a pot, sows basil in it, draws how it grows and takes it home before the summer",
    offer_back="A window display of seed packets decorated by our students for four weeks in spring, and a card",
    last_year="Your 80 pots went home as herb gardens with 76 students, and four stayed in the school garden",
)

THANKS = Thanks(
    language="en",
    moment="delivery",
    form="goods",
    day=date(2027, 3, 4),
    partner="Riverbend Garden Center",
    contact="Dana Whitlock",
    items=(Item("terracotta pots", 120, kind="4 inch"), Item("potting soil", 6, "bags")),
    becomes="Each child painted a pot and grows basil in it",
    students=104,
    receiver="Alder Falls School District",
)
FORMS: dict[Form, dict[str, Any]] = {
    "money": {"items": (), "amount_cents": 30_000},
    "goods": {},
    "service": {"items": (Item("an afternoon of photographing our work"),)},
    "space": {"items": (Item("your front window for four weeks"),)},
    "discount": {"items": (Item("frames at cost", 24),)},
    "loan": {"items": (Item("step ladder", 1),), "return_on": date(2027, 5, 28)},
    "exchange": {"back": "300 decorated seed packets"},
}
"""What differs from THANKS for each form of gift."""
ADDRESS = Address(
    "Dana Whitlock", "Riverbend Garden Center", ("210 RIVER RD STE 4",), "Alder Falls", "OR", "97000-1234"
)
LETTER = gratitude_letter.Facts(
    paper="letter",
    letterhead=SCHOOL,
    day=date(2027, 3, 5),
    thanks=THANKS,
    teacher="June Castellanos",
    role="Art teacher, Millrace Elementary",
    address=ADDRESS,
    number="00-0000000",
    receipts_by="the district business office",
    enclosures=("a card from class 3B",),
)
LONG_LETTER = replace(
    LETTER,
    letterhead=LONG_SCHOOL,
    teacher=LONG_PERSON,
    thanks=replace(THANKS, partner=LONG_NAME, contact=LONG_PERSON),
    address=replace(ADDRESS, person=LONG_PERSON, business=LONG_NAME),
)


def thanking(facts: gratitude_letter.Facts = LETTER, **changes: Any) -> gratitude_letter.Facts:
    """The letter with other thanks."""
    return replace(facts, thanks=replace(facts.thanks, **changes))


def forty() -> gratitude_letter.Facts:
    return thanking(items=tuple(Item(f"spools of yarn in colour {number}", number + 1) for number in range(1, 41)))


def logo(size: int = 300) -> Picture:
    wheel = Image.new("L", (size, size), "white")
    ImageDraw.Draw(wheel).ellipse((10, 10, size - 10, size - 10), outline="black", width=12)
    return open_picture(png(wheel))


def png(picture: Image.Image) -> bytes:
    file = BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()


def pages_of(pdf: bytes) -> list[str]:
    """Text of each page with its blanks and line ends as one blank."""
    # A hyphen at the end of a line is told as U+FFFE.
    texts = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(pdf)]
    return [" ".join(text.replace("\ufffe", "-").split()) for text in texts]


@dataclass(frozen=True)
class Placed:
    """One sign on a page: its box in inches, y from the top."""

    sign: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Printed:
    """A PDF as its readers see it."""

    data: bytes

    @cached_property
    def reader(self) -> PdfReader:
        return PdfReader(BytesIO(self.data))

    @cached_property
    def pages(self) -> list[str]:
        return pages_of(self.data)

    @cached_property
    def text(self) -> str:
        return " ".join(self.pages)

    def signs(self, page: int = 0) -> list[Placed]:
        """Every visible sign with the box of its ink."""
        opened = pypdfium2.PdfDocument(self.data)[page]
        high, text = opened.get_height(), opened.get_textpage()
        placed = []
        for index in range(text.count_chars()):
            sign = text.get_text_range(index, 1)
            if sign.strip():
                left, bottom, right, top = text.get_charbox(index)
                placed.append(Placed(sign, left / 72, (high - top) / 72, right / 72, (high - bottom) / 72))
        return placed

    def picture(self, page: int = 0, dots: int = 200) -> Image.Image:
        """The page as a grey copy at so many dots an inch."""
        bitmap = pypdfium2.PdfDocument(self.data)[page].render(scale=dots / 72, grayscale=True)
        picture: Image.Image = bitmap.to_pil()
        return picture

    def code(self, page: int = 0) -> str:
        """What the page's code says, read from its grey picture; "" without one."""
        found = zxingcpp.read_barcodes(self.picture(page))
        return found[0].text if found else ""

    def fonts(self) -> dict[str, bool]:
        """Name of every font that the file holds, and whether its own shapes are inside."""
        found: dict[str, bool] = {}
        for thing in range(1, int(str(self.reader.trailer["/Size"]))):
            held = self.reader.get_object(thing)
            if isinstance(held, dict) and held.get("/Type") == "/Font":
                about = held.get("/FontDescriptor")
                found[str(held["/BaseFont"])] = bool(about and "/FontFile2" in about.get_object())
        return found


def sheet(facts: leave_behind.Facts) -> Printed:
    return Printed(leave_behind.draw(facts))


def letter(facts: gratitude_letter.Facts) -> Printed:
    return Printed(gratitude_letter.draw(facts))
