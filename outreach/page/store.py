"""What a PDF file holds: its pages, shapes and pictures, the fonts and the file's own facts.

Pages are written as finished operators. Only fonts and their subsets are reportlab's: building and formatting its
page objects takes longer than everything that is drawn on them.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import dataclass
from typing import BinaryIO
from xml.sax.saxutils import escape

from reportlab.pdfbase.pdfdoc import BasicFonts, PDFDocument, PDFIndirectObject

from outreach.page.fonts import Face, font, tidy
from outreach.page.objects import Objects
from outreach.page.pictures import Picture

_SAVING = threading.Lock()  # subsetting reads through one shared position in the font's file
_COLOURS = {"L": "/DeviceGray", "RGB": "/DeviceRGB"}
_MADE = "D:20000101000000+00'00'"
"""The same facts give the same bytes, so no file says when it was made."""


class Store:
    """Objects of one file. Numbers are object numbers; names are those that page streams use."""

    def __init__(self, *, title: str, author: str, subject: str, language: str) -> None:
        self._fonts_of = PDFDocument(compression=1, invariant=1)
        self._about = {"Title": for_reader(title), "Author": for_reader(author), "Subject": for_reader(subject)}
        self._language = language
        self._last: int = self._fonts_of.objectcounter
        self._objects = Objects(self.number)
        self._fonts = int(self._fonts_of.idToObjectNumberAndVersion[BasicFonts][0])
        self._tree, self._inside_shapes, self._on_pages = self.number(), self.number(), self.number()
        self._pages: list[int] = []
        self._shapes: list[int] = []
        self._pictures: dict[Picture, tuple[str, int]] = {}
        self._bookmarks: list[tuple[str, int, int]] = []
        self._ascii: dict[Face, str] = {}

    def number(self) -> int:
        """The number of one more object."""
        self._last += 1
        return self._last

    def font_of_ascii(self, face: Face) -> str:
        """Name of the subset that holds ASCII at its own codes, so that plain text needs no table."""
        name = self._ascii.get(face)
        if name is None:
            font(face).splitString("", self._fonts_of)
            name = self._ascii[face] = font(face).getSubsetInternalName(0, self._fonts_of)
        return name

    def subsets(self, text: str, face: Face) -> list[tuple[str, bytes]]:
        """Pieces of any text: name of the font subset and the codes in it."""
        loaded = font(face)
        pieces = loaded.splitString(text, self._fonts_of)
        return [(loaded.getSubsetInternalName(subset, self._fonts_of), codes) for subset, codes in pieces]

    def picture(self, picture: Picture) -> str:
        """Name of a picture; the same picture is stored once."""
        known = self._pictures.get(picture)
        if known is None:
            about = (
                f"/Type /XObject /Subtype /Image /Width {picture.width} /Height {picture.height} "
                f"/BitsPerComponent 8 /ColorSpace {_COLOURS[picture.mode]}"
            )
            number = self.number()
            self._objects.add_stream(number, about, picture.pixels)
            known = self._pictures[picture] = f"P{len(self._pictures) + 1}", number
        return known[0]

    def shape(self, box: tuple[float, float, float, float], operators: Iterable[str]) -> str:
        """Name of a form XObject of the operators; what lies outside the box (left, low, right, high) is cut off."""
        corners, number = " ".join(f"{corner:.2f}" for corner in box), self.number()
        about = f"/Type /XObject /Subtype /Form /BBox [{corners}] /Resources {self._inside_shapes} 0 R"
        self._objects.add_stream(number, about, _code(operators))
        self._shapes.append(number)
        return f"S{len(self._shapes)}"

    def page(
        self,
        number: int,
        size: tuple[float, float],
        operators: Iterable[str],
        bookmarks: Iterable[tuple[str, int]] = (),
    ) -> int:
        """The next page, under a number that it was given. Each bookmark is a line in the list of contents, and its
        level there: 0, or 1 under the line before it.

        Returns its key in the table that leads from what is drawn to the parts it belongs to.
        """
        contents, key = self.number(), len(self._pages)
        self._objects.add_stream(contents, "", _code(operators))
        self.small(
            number,
            f"<</Type/Page/Parent {self._tree} 0 R/MediaBox[0 0 {size[0]:.2f} {size[1]:.2f}]/Resources "
            f"{self._on_pages} 0 R/Contents {contents} 0 R/StructParents {key}/Tabs/S>>",
        )
        self._pages.append(number)
        self._bookmarks.extend((for_reader(title), number, level) for title, level in bookmarks if title)
        return key

    def small(self, number: int, body: str) -> None:
        """Any other object that is no stream, in ASCII."""
        self._objects.add_small(number, body)

    def taken(self) -> bytes:
        """What of the file was finished since the last time; `save` then writes the rest."""
        return self._objects.taken()

    def save(self, file: BinaryIO, tags: int) -> None:
        """Writes the file; `tags` is the number of the structure tree's root."""
        fonts = f"/Font {self._fonts} 0 R"
        pictures = "".join(f"/{name} {number} 0 R" for name, number in self._pictures.values())
        shapes = "".join(f"/S{place} {number} 0 R" for place, number in enumerate(self._shapes, 1))
        self.small(self._inside_shapes, f"<<{fonts}/XObject<<{pictures}>>>>")
        self.small(self._on_pages, f"<<{fonts}/XObject<<{pictures}{shapes}>>>>")
        kids = " ".join(f"{page} 0 R" for page in self._pages)
        self.small(self._tree, f"<</Type/Pages/Count {len(self._pages)}/Kids[{kids}]>>")
        about, root = self.number(), self.number()
        language, described, outlines = text_string(self._language), self._described(), self._contents()
        self._objects.add(about, self._facts().encode())
        self._objects.add(
            root,
            f"<< /Type /Catalog /Pages {self._tree} 0 R /Lang {language} /MarkInfo << /Marked true >> "
            f"/StructTreeRoot {tags} 0 R /ViewerPreferences << /DisplayDocTitle true >> "
            f"/Metadata {described} 0 R {outlines}>>".encode(),
        )
        with _SAVING:
            self._embed_fonts()
        self._objects.write(file, root, about)

    def _embed_fonts(self) -> None:
        """The fonts' objects; formatting one may bring more."""
        document = self._fonts_of
        document.objectcounter = self._last
        for used in document.delayedFonts:
            used.addObjects(document)
        done: set[int] = set()
        while left := [number for number in document.numberToId if number not in done]:
            for number in left:
                name = document.numberToId[number]
                self._objects.add_framed(number, PDFIndirectObject(name, document.idToObject[name]).format(document))
                done.add(number)
        self._last = document.objectcounter

    def _facts(self) -> str:
        said = "".join(f"/{key} {text_string(value)} " for key, value in self._about.items())
        return f"<< {said}/Creator (Partner Book) /CreationDate ({_MADE}) /ModDate ({_MADE}) >>"

    def _described(self) -> int:
        """The same facts as XMP (ISO 16684-1)."""
        number, title = self.number(), escape(self._about["Title"])
        author, subject = escape(self._about["Author"]), escape(self._about["Subject"])
        packet = _XMP.format(title=title, author=author, subject=subject, language=escape(self._language))
        self._objects.add_stream(number, "/Type /Metadata /Subtype /XML", packet.encode(), effort=0)
        return number

    def _contents(self) -> str:
        """The list of contents, every line leading to its page; lines of the second level are folded up."""
        if not self._bookmarks:
            return ""
        root = self.number()
        lines = [_Line(self.number(), *bookmark) for bookmark in self._bookmarks]
        places = [place for place, line in enumerate(lines) if not place or not line.level]
        for place, after in zip(places, [*places[1:], len(lines)], strict=True):
            top, under = lines[place], lines[place + 1 : after]
            self._chained(under, top.number)
            top.under = _ends(under, -len(under)) if under else ""
        tops = [lines[place] for place in places]
        self._chained(tops, root)
        self.small(root, f"<</Type/Outlines{_ends(tops, len(tops))}>>")
        return f"/Outlines {root} 0 R "

    def _chained(self, lines: list[_Line], parent: int) -> None:
        """Lines of one level, each knowing the one before and behind."""
        for place, line in enumerate(lines):
            before = f"/Prev {lines[place - 1].number} 0 R" if place else ""
            after = f"/Next {lines[place + 1].number} 0 R" if place + 1 < len(lines) else ""
            leads = f"{before}{after}{line.under}/Dest[{line.page} 0 R/Fit]>>"
            self.small(line.number, f"<</Title {text_string(line.title)}/Parent {parent} 0 R{leads}")


@dataclass(slots=True)
class _Line:
    """A line in the list of contents: the number of its object, its words, the number of its page, its level."""

    number: int
    title: str
    page: int
    level: int
    under: str = ""


def _ends(lines: list[_Line], count: int) -> str:
    return f"/Count {count}/First {lines[0].number} 0 R/Last {lines[-1].number} 0 R"


_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<xmp:CreatorTool>Partner Book</xmp:CreatorTool>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""


def _code(operators: Iterable[str]) -> bytes:
    return "\n".join(operators).encode("ascii")


def text_string(text: str) -> str:
    """A text string in ASCII: as it is, or its UTF-16 in figures."""
    if text.isascii() and text.isprintable():
        literal = text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
        return f"({literal})"
    return f"<feff{text.encode('utf-16-be').hex()}>"


def for_reader(text: str) -> str:
    """Text for the file's own facts: any sign is welcome there, halves of a pair are not."""
    return tidy(text).encode("utf-16", "ignore").decode("utf-16")
