"""The PDF file's objects. Pages, shapes and pictures are written and packed once, as finished bytes.

Fonts, cross references and the file's own facts are reportlab's; its page objects are passed by, because building and
formatting them takes longer than everything that is drawn on them.
"""

import threading
import zlib
from collections.abc import Iterable
from typing import BinaryIO

from reportlab.pdfbase.pdfdoc import BasicFonts, PDFDocument, PDFObject, PDFString

from outreach.page.fonts import Face, font, tidy
from outreach.page.pictures import Picture

_SAVING = threading.Lock()  # subsetting reads through one shared position in the font's file
_COLOURS = {"L": "/DeviceGray", "RGB": "/DeviceRGB"}


class _Ready(PDFObject):  # type: ignore[misc]
    """An object whose bytes are finished. It is always referred to, never written inside another one."""

    __RefOnly__ = 1

    def __init__(self, data: bytes = b"") -> None:
        self.data = data

    def format(self, document: PDFDocument) -> bytes:
        return self.data


class _Contents(_Ready):
    """The reader's list of contents, in the place where reportlab asks for its own."""

    ready = 1

    def prepare(self, document: PDFDocument, canvas: object) -> None:
        if not self.data:
            self.ready = -1


class Store:
    """Objects of one file. Numbers are object numbers; names are those that page streams use."""

    def __init__(self, *, title: str, author: str, subject: str, language: str) -> None:
        self.document = PDFDocument(compression=1, invariant=1, lang=language)
        self.document.setTitle(for_reader(title))
        self.document.setAuthor(for_reader(author))
        self.document.setSubject(for_reader(subject))
        self.document.setCreator("Partner Book")
        self._fonts = self._number(self.document.idToObject[BasicFonts], BasicFonts)
        self._pages = self._number(self.document.Pages, "pages")
        self._shape_resources, self._page_resources = _Ready(), _Ready()
        self._inside_shapes = self._number(self._shape_resources, "inside shapes")
        self._on_pages = self._number(self._page_resources, "on pages")
        self._shapes: dict[str, int] = {}
        self._pictures: dict[Picture, tuple[str, int]] = {}
        self._bookmarks: list[tuple[str, int]] = []
        self._ascii: dict[Face, str] = {}

    def font_of_ascii(self, face: Face) -> str:
        """Name of the subset that holds ASCII at its own codes, so that plain text needs no table."""
        name = self._ascii.get(face)
        if name is None:
            font(face).splitString("", self.document)
            name = self._ascii[face] = font(face).getSubsetInternalName(0, self.document)
        return name

    def subsets(self, text: str, face: Face) -> list[tuple[str, bytes]]:
        """Pieces of any text: name of the font subset and the codes in it."""
        loaded = font(face)
        pieces = loaded.splitString(text, self.document)
        return [(loaded.getSubsetInternalName(subset, self.document), codes) for subset, codes in pieces]

    def picture(self, picture: Picture) -> str:
        """Name of a picture; the same picture is stored once."""
        known = self._pictures.get(picture)
        if known is None:
            name = f"P{len(self._pictures) + 1}"
            about = (
                f"/Type /XObject /Subtype /Image /Width {picture.width} /Height {picture.height} "
                f"/BitsPerComponent 8 /ColorSpace {_COLOURS[picture.mode]}"
            )
            known = self._pictures[picture] = name, self._stream(about, picture.pixels, name)
        return known[0]

    def shape(self, box: tuple[float, float, float, float], operators: Iterable[str]) -> str:
        """Name of a form XObject of the operators; what lies outside the box (left, low, right, high) is cut off."""
        name = f"S{len(self._shapes) + 1}"
        corners = " ".join(f"{corner:.2f}" for corner in box)
        about = f"/Type /XObject /Subtype /Form /BBox [{corners}] /Resources {self._inside_shapes} 0 R"
        self._shapes[name] = self._stream(about, _code(operators), name)
        return name

    def page(self, width: float, height: float, operators: Iterable[str], bookmark: str = "") -> None:
        """One more page; with a bookmark it gets a line in the list of contents."""
        count = len(self.document.Pages.pages) + 1
        contents = self._stream("", _code(operators), f"contents {count}")
        page = _Ready(
            f"<< /Type /Page /Parent {self._pages} 0 R /MediaBox [0 0 {width:.2f} {height:.2f}] "
            f"/Resources {self._on_pages} 0 R /Contents {contents} 0 R >>\n".encode()
        )
        number = self._number(page, f"page {count}")
        self.document.Pages.addPage(page)
        if bookmark:
            self._bookmarks.append((for_reader(bookmark), number))

    def save(self, file: BinaryIO) -> None:
        fonts = f"/Font {self._fonts} 0 R"
        pictures = " ".join(f"/{name} {number} 0 R" for name, number in self._pictures.values())
        shapes = " ".join(f"/{name} {number} 0 R" for name, number in self._shapes.items())
        self._shape_resources.data = f"<< {fonts} /XObject << {pictures} >> >>\n".encode()
        self._page_resources.data = f"<< {fonts} /XObject << {pictures} {shapes} >> >>\n".encode()
        contents = _Contents(self._contents())
        self.document.Outlines = self.document.outline = self.document.Catalog.Outlines = contents
        with _SAVING:
            self.document.SaveToFile(file, None)

    def _contents(self) -> bytes:
        """The list of contents: one level, every line leading to its page."""
        items = [_Ready() for _bookmark in self._bookmarks]
        if not items:
            return b""
        numbers = [self._number(item, f"bookmark {place}") for place, item in enumerate(items)]
        root = self.document.objectcounter + 1
        for place, (title, page) in enumerate(self._bookmarks):
            before = f" /Prev {numbers[place - 1]} 0 R" if place else ""
            after = f" /Next {numbers[place + 1]} 0 R" if place + 1 < len(items) else ""
            links = f" /Parent {root} 0 R{before}{after} /Dest [{page} 0 R /Fit] >>\n".encode()
            items[place].data = b"<< /Title " + PDFString(title).format(self.document) + links
        return f"<< /Type /Outlines /Count {len(items)} /First {numbers[0]} 0 R /Last {numbers[-1]} 0 R >>\n".encode()

    def _number(self, thing: PDFObject, name: str) -> int:
        self.document.Reference(thing, name)
        number: int = self.document.idToObjectNumberAndVersion[name][0]
        return number

    def _stream(self, about: str, data: bytes, name: str) -> int:
        packed = zlib.compress(data)
        head = f"<< {about} /Filter /FlateDecode /Length {len(packed)} >>\nstream\n".encode()
        return self._number(_Ready(head + packed + b"\nendstream\n"), name)


def _code(operators: Iterable[str]) -> bytes:
    return "\n".join(operators).encode("ascii")


def for_reader(text: str) -> str:
    """Text for the file's own facts: any sign is welcome there, halves of a pair are not."""
    return tidy(text).encode("utf-16", "ignore").decode("utf-16")
