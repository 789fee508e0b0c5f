"""A PDF written anew: what its pages show, and nothing else. Pure.

Kept are the pages with their fonts, pictures and text. Scripts, actions, attached files, forms as forms, links and what
programs write into a file about its author, its device and its place stay behind. What was typed into a form's fields
is drawn into the page, as ISO 32000-1, 12.5.5 places an annotation's appearance.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Any

from pypdf import PageObject, PdfReader, PdfWriter, Transformation
from pypdf.errors import PyPdfError
from pypdf.filters import ASCII85Decode, ASCIIHexDecode
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    StreamObject,
)

from partners.ground.plain import PlainError, gettext_noop

MOST_PAGES = 200
# What a page keeps (ISO 32000-1, table 30).
PAGE = {"/Type", "/MediaBox", "/CropBox", "/Rotate", "/Resources", "/Contents", "/UserUnit", "/Group"}
# What stays behind wherever it stands; scripts and actions hang on what a page does not keep.
LEFT = {
    "/Metadata", "/PieceInfo", "/LastModified", "/AF", "/OPI", "/Ref", "/Alternates", "/StructParent",
    "/StructParents",
}  # fmt: skip
# A stream's bytes in another file.
FILES = {"/F", "/FFilter", "/FDecodeParms"}
HIDDEN = 0b10_0010
NOT_DRAWN = {"/Link", "/Popup", "/FileAttachment", "/Screen", "/Movie", "/Sound", "/RichMedia", "/3D"}
# What a JPEG inside a PDF may be wrapped in.
AROUND: dict[str, Callable[[bytes], bytes]] = {
    "/FlateDecode": lambda data: zlib.decompressobj().decompress(data, MOST_OF_A_PICTURE),
    "/ASCII85Decode": ASCII85Decode.decode,
    "/ASCIIHexDecode": ASCIIHexDecode.decode,
}
MOST_OF_A_PICTURE = 80_000_000
# Of a JPEG inside a PDF: JFIF and Adobe's colour mark stay, other marks of programs and comments go.
JPEG_MARKS = {*range(0xE1, 0xEE), 0xEF, 0xFE}

LOCKED = gettext_noop("This PDF is locked with a password. Open it, print it as a PDF without one, and send that.")
BROKEN = gettext_noop("This PDF cannot be read: its end is missing or it is damaged. Save or scan it again.")
TOO_MANY = gettext_noop("This PDF has %(count)s pages; at most %(most)s can be kept. Send only the pages you need.")
UNREADABLE = (
    PyPdfError, ValueError, KeyError, TypeError, AttributeError, IndexError, OSError, RecursionError, AssertionError,
    NotImplementedError, OverflowError, zlib.error,
)  # fmt: skip


class PaperNotKept(PlainError):
    """The PDF is not kept; the sentence says why and what to do instead."""


def written_anew(data: bytes) -> bytes:
    """The pages of a PDF in a new one. Raises PaperNotKept."""
    try:
        reader = PdfReader(BytesIO(data), strict=False)
        if reader.is_encrypted:
            raise PaperNotKept("locked", LOCKED)
        count = len(reader.pages)
        if count > MOST_PAGES:
            raise PaperNotKept("too_many", TOO_MANY, count=count, most=MOST_PAGES)
        return _written(reader)
    except PaperNotKept:
        raise
    except UNREADABLE:
        raise PaperNotKept("broken", BROKEN) from None


def _written(reader: PdfReader) -> bytes:
    writer = PdfWriter()
    writer.metadata = None
    seen: set[int] = set()
    for page in reader.pages:
        drawn = _drawn_in(page)
        for name in [name for name in page if name not in PAGE]:
            del page[name]
        _clean(page, seen)
        _draw(writer, writer.add_page(page), drawn)
    if not writer.pages:
        raise PaperNotKept("broken", BROKEN)
    file = BytesIO()
    writer.write(file)
    return file.getvalue()


def _drawn_in(page: PageObject) -> list[tuple[str, Transformation]]:
    """Names of the appearances of form fields, stamps and notes, put among the page's drawings, and their places."""
    drawn: list[tuple[str, Transformation]] = []
    resources = _held(page.get("/Resources")) or DictionaryObject()
    drawings = _held(resources.get("/XObject")) or DictionaryObject()
    for annotation, look in _appearances(page):
        place = _placed(look, annotation["/Rect"])
        if place is not None:
            name = f"/Typed{len(drawn)}"
            drawings[NameObject(name)] = look.indirect_reference or look
            drawn.append((name, place))
    if drawn:
        resources[NameObject("/XObject")] = drawings
        page[NameObject("/Resources")] = resources
    return drawn


def _appearances(page: PageObject) -> Iterator[tuple[DictionaryObject, StreamObject]]:
    for entry in _held(page.get("/Annots")) or ():
        annotation = _held(entry)
        if not isinstance(annotation, DictionaryObject) or annotation.get("/Subtype") in NOT_DRAWN:
            continue
        look = _held((_held(annotation.get("/AP")) or {}).get("/N"))
        if isinstance(look, DictionaryObject) and not isinstance(look, StreamObject):
            # A tick box has one look for each state.
            look = _held(look.get(annotation.get("/AS", "/Off")))
        if isinstance(look, StreamObject) and not int(annotation.get("/F", 0)) & HIDDEN:
            yield annotation, look


def _placed(look: StreamObject, rectangle: Any) -> Transformation | None:
    """What moves the appearance's box, as its own matrix turns it, onto the annotation's rectangle (12.5.5)."""
    left, bottom, right, top = (float(one) for one in _held(look["/BBox"]))
    matrix = tuple(float(one) for one in _held(look.get("/Matrix")) or (1, 0, 0, 1, 0, 0))
    corners = [_moved(matrix, x, y) for x in (left, right) for y in (bottom, top)]
    across, up = [x for x, _y in corners], [y for _x, y in corners]
    width, height = max(across) - min(across), max(up) - min(up)
    if not width or not height:
        return None
    x1, y1, x2, y2 = (float(one) for one in rectangle)
    wide, high = abs(x2 - x1) / width, abs(y2 - y1) / height
    return Transformation((wide, 0, 0, high, min(x1, x2) - min(across) * wide, min(y1, y2) - min(up) * high))


def _moved(matrix: tuple[float, ...], x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def _draw(writer: PdfWriter, page: PageObject, drawn: list[tuple[str, Transformation]]) -> None:
    if not drawn:
        return
    held = page.get("/Contents")
    before = held if isinstance(held, ArrayObject) else ArrayObject([page.raw_get("/Contents")] if held else [])
    words = ["Q"]
    for name, place in drawn:
        words.append("q " + " ".join(f"{one:.5f}" for one in place.ctm) + f" cm {name} Do Q")
    parts = [writer._add_object(_stream("q")), *before, writer._add_object(_stream("\n".join(words)))]
    page[NameObject("/Contents")] = ArrayObject(parts)


def _stream(words: str) -> DecodedStreamObject:
    stream = DecodedStreamObject()
    stream.set_data(f"\n{words}\n".encode())
    return stream


def _held(value: Any) -> Any:
    return value.get_object() if isinstance(value, IndirectObject) else value


def _clean(start: DictionaryObject, seen: set[int]) -> None:
    """Takes out of everything the page leads to what stays behind."""
    waiting: list[Any] = [start]
    while waiting:
        one = waiting.pop()
        if id(one) in seen:
            continue
        seen.add(id(one))
        if isinstance(one, DictionaryObject):
            for name in [name for name in one if name in LEFT or (name in FILES and isinstance(one, StreamObject))]:
                del one[name]
            if isinstance(one, StreamObject):
                _clean_stream(one)
        inner = one.values() if isinstance(one, DictionaryObject) else one
        waiting += [held for held in map(_held, inner) if isinstance(held, DictionaryObject | ArrayObject)]


def _clean_stream(stream: StreamObject) -> None:
    """A photograph keeps its dots and loses what the camera wrote beside them; a printer's program is emptied."""
    if stream.get("/Subtype") == "/PS":
        stream._data = b""
    filters = _held(stream.get("/Filter"))
    names = list(filters) if isinstance(filters, ArrayObject) else [filters]
    while len(names) > 1 and names[-1] == "/DCTDecode" and names[0] in AROUND and "/DecodeParms" not in stream:
        stream._data = AROUND[names.pop(0)](stream._data)
        stream[NameObject("/Filter")] = ArrayObject(NameObject(name) for name in names)
    if names == ["/DCTDecode"]:
        stream._data = plain_jpeg(stream._data)


def plain_jpeg(data: bytes) -> bytes:
    """A JPEG without comments and without the marks of programs (ITU-T T.81, B.1.1); its dots are untouched."""
    at, kept = 2, [data[:2]]
    while data[:2] == b"\xff\xd8" and at + 4 <= len(data) and data[at] == 0xFF:
        mark = data[at + 1]
        if mark == 0xDA:
            break
        end = at + 2 + int.from_bytes(data[at + 2 : at + 4], "big")
        if mark not in JPEG_MARKS:
            kept.append(data[at:end])
        at = end
    return b"".join([*kept, data[at:]])
