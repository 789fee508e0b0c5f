"""Reads a PDF by its tags alone, as a screen reader does (ISO 32000-1, sections 14.6 to 14.8), and says what is wrong.

Nothing of the kit that writes them is used here; pypdf opens the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import unescape
from io import BytesIO
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream

PAINTS = {b"Tj", b"TJ", b"S", b"s", b"f", b"F", b"f*", b"B", b"b", b"Do", b"sh", b"EI"}
INSIDE = {"TR": "Table", "TH": "TR", "TD": "TR", "LI": "L", "Lbl": "LI", "LBody": "LI", "Sect": "Document"}
"""Which role may stand only inside which (ISO 32000-1, tables 336 and 337)."""


@dataclass
class Heard:
    """A part as it is read: its role, what it says itself, and the parts in it."""

    role: str
    said: str = ""
    language: str = ""
    alt: str = ""
    scope: str = ""
    columns: int = 1
    parts: list[Heard] = field(default_factory=list)

    def all(self) -> Iterator[Heard]:
        yield self
        for part in self.parts:
            yield from part.all()

    @property
    def text(self) -> str:
        """Everything in it, in the order of the tree."""
        return " ".join(" ".join(part.alt or part.said for part in self.all()).split())


def spoken(part: Heard) -> str:
    """The words of a part in order, without blanks, pictures and the dots and numbers of lists."""
    if part.role == "Figure" or (part.role == "Lbl" and re.fullmatch(r"•|\d+\.", part.text)):
        return ""
    return "".join((part.alt or part.said).split()) + "".join(spoken(inside) for inside in part.parts)


def spoken_on(page: str) -> str:
    """The same of a page that shows the sheets, each in a section of its own; captions are not seen."""
    told = "".join(re.findall(r'<section class="told"[^>]*>(.*?)</section>', page, re.DOTALL))
    told = re.sub(r'<caption.*?</caption>|<p role="img".*?</p>', "", told, flags=re.DOTALL)
    return "".join(unescape(re.sub(r"<[^>]+>", "", told)).split())


@dataclass
class Tagged:
    """A file read by its tags; `faults` is empty when everything drawn is reached once and the tree is sound."""

    data: bytes
    faults: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.reader = PdfReader(BytesIO(self.data))
        root: Any = self.reader.root_object
        tree = root["/StructTreeRoot"]
        self._fonts: dict[str, dict[int, str]] = {}
        self._left: dict[tuple[int, int], str] = {}
        self._keys: dict[int, int] = {}
        page: Any
        for page in self.reader.pages:
            number = page.indirect_reference.idnum
            self._keys[number] = int(page["/StructParents"])
            self._content(ContentStream(page["/Contents"], self.reader), page, number)
            self._wrong(page.get("/Tabs") != "/S", "a page is not read in the order of its tags")
        self._owners = dict(_pairs(tree["/ParentTree"]))
        self.document = self._part(tree["/K"], "", None)
        self._wrong(bool(self._left), f"drawn, but in no part: {sorted(self._left.values())[:5]}")
        self._wrong(not root["/MarkInfo"]["/Marked"], "not marked")
        self._wrong(not root["/ViewerPreferences"]["/DisplayDocTitle"], "the title is not shown")
        self._wrong(not root.get("/Lang"), "no language")
        self._wrong(not (self.reader.metadata and self.reader.metadata.title), "no title")
        self._wrong(self.reader.xmp_metadata is None, "no metadata")
        for sheet in self.document.parts:
            self._headings(sheet)

    def _wrong(self, wrong: bool, words: str) -> None:
        if wrong:
            self.faults.append(words)

    def _content(self, stream: ContentStream, page: Any, number: int) -> None:
        """Notes what each mark of a page draws; whatever is painted outside of any mark is a fault."""
        marks: list[tuple[str, int | None]] = []
        font = ""
        for operands, operator in stream.operations:
            if operator in (b"BDC", b"BMC"):
                self._wrong(bool(marks), f"a mark inside a mark on page {number}")
                mark = operands[1].get("/MCID") if len(operands) > 1 else None
                marks.append((str(operands[0]), mark))
                if mark is not None:
                    self._left[number, int(mark)] = ""
            elif operator == b"EMC":
                marks.pop()
            elif operator == b"Tf":
                font = str(operands[0])
            elif operator in PAINTS:
                role, mark = marks[-1] if marks else ("", None)
                self._wrong(mark is None and role != "/Artifact", f"{operator!r} untagged on page {number}")
                if mark is not None:
                    self._left[number, int(mark)] += self._said(operator, operands, font, page)
            elif operator in (b"T*", b"Td", b"BT") and marks and marks[-1][1] is not None:
                self._left[number, int(marks[-1][1])] += " "

    def _said(self, operator: bytes, operands: list[Any], font: str, page: Any) -> str:
        if operator == b"Tj":
            return self._decoded(operands[0], font, page)
        if operator == b"Do":
            drawn = page["/Resources"]["/XObject"][operands[0]]
            return self._shape(drawn, page) if drawn["/Subtype"] == "/Form" else ""
        return ""

    def _shape(self, drawn: Any, page: Any) -> str:
        """The words in a shared shape; it is read as part of the mark around it, so it has none of its own."""
        font, said = "", ""
        for operands, operator in ContentStream(drawn, self.reader).operations:
            self._wrong(operator in (b"BDC", b"BMC"), "marks inside a shape that is drawn more than once")
            font = str(operands[0]) if operator == b"Tf" else font
            said += self._decoded(operands[0], font, page) if operator == b"Tj" else ""
            said += " " if operator in (b"T*", b"Td") else ""
        return said

    def _decoded(self, codes: Any, font: str, page: Any) -> str:
        if font not in self._fonts:
            table = page["/Resources"]["/Font"][font]["/ToUnicode"].get_data().decode("latin-1")
            signs = re.findall(r"<(\w\w)> <(\w{4,})>", table)
            self._fonts[font] = {int(code, 16): bytes.fromhex(sign).decode("utf-16-be") for code, sign in signs}
        raw = codes.original_bytes if hasattr(codes, "original_bytes") else bytes(codes)
        said = "".join(self._fonts[font].get(code, "\ufffd") for code in raw)
        self._wrong("\ufffd" in said or "\x00" in said, f"a sign without meaning in {said!r}")
        return said

    def _part(self, given: Any, under: str, page: Any) -> Heard:
        element = given.get_object()
        page = element.raw_get("/Pg").idnum if "/Pg" in element else page
        about = element.get("/A", {})
        told = Heard(
            str(element["/S"])[1:],
            language=str(element.get("/Lang", "")),
            alt=str(element.get("/Alt", element.get("/ActualText", ""))),
            scope=str(about.get("/Scope", "")),
            columns=int(about.get("/ColSpan", 1)),
        )
        self._wrong(INSIDE.get(told.role, under) != under, f"{told.role} inside {under}")
        self._wrong(told.role == "Figure" and not told.alt.strip(), "a picture without words")
        self._wrong(told.role == "TH" and not told.scope, "a heading cell that heads nothing")
        kids = element["/K"]
        for kid in kids if isinstance(kids, list) else [element.raw_get("/K")]:
            self._kid(kid, told, page, element)
        if told.role == "Table":
            wide = {sum(cell.columns for cell in row.parts) for row in told.parts}
            self._wrong(len(wide) != 1, f"rows of several widths: {wide}")
            self._wrong(not any(part.role == "TH" for part in told.all()), "a table without a heading cell")
        return told

    def _kid(self, kid: Any, told: Heard, page: Any, element: Any) -> None:
        kid = kid.get_object() if not hasattr(kid, "idnum") else kid
        if hasattr(kid, "idnum"):
            part = self._part(kid, told.role, page)
            self._wrong(kid.get_object()["/P"].get_object() != element, f"{part.role} does not know its parent")
            told.parts.append(part)
            return
        mark, page = (kid["/MCID"], kid.raw_get("/Pg").idnum) if isinstance(kid, dict) else (kid, page)
        found = self._left.pop((page, int(mark)), None)
        self._wrong(found is None, f"mark {mark} of page {page} is reached twice, or not there")
        owner = self._owners[self._keys[page]][int(mark)].get_object()
        self._wrong(owner != element, f"mark {mark} of page {page} leads to another part")
        told.said += found or ""

    def _headings(self, sheet: Heard) -> None:
        deepest = 0
        for part in sheet.all():
            if re.fullmatch(r"H\d", part.role):
                level = int(part.role[1])
                self._wrong(level > deepest + 1, f"heading {part.text!r} leaves a level out")
                deepest = level


def _pairs(node: Any) -> Iterator[tuple[int, Any]]:
    node = node.get_object()
    for kid in node.get("/Kids", []):
        yield from _pairs(kid)
    numbers = node.get("/Nums", [])
    for place in range(0, len(numbers), 2):
        yield int(numbers[place]), numbers[place + 1]
