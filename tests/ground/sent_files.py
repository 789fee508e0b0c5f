"""Files as phones, scanners and ill-wishers send them, made in memory."""

from __future__ import annotations

import io
import struct
import zlib
from typing import Any

import pypdf
from PIL import Image
from pypdf.generic import DictionaryObject, NameObject, TextStringObject
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

MAKER, COMMENT, XMP = "Quayphone Nine", b"behind the gym", b"<x:xmpmeta>place of the gym</x:xmpmeta>"
NORTH, GPS, MAKE, ORIENTATION, TURNED_RIGHT = 1, 0x8825, 0x010F, 0x0112, 6


def saved(picture: Image.Image, kind: str, **values: Any) -> bytes:
    file = io.BytesIO()
    picture.save(file, kind, **values)
    return file.getvalue()


def photograph(width: int = 60, height: int = 40) -> bytes:
    """As a phone held upright writes it: its left third red, turned by a mark, with device, place, note and XMP."""
    picture = Image.new("RGB", (width, height), "white")
    picture.paste((200, 0, 0), (0, 0, width // 3, height))
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = TURNED_RIGHT, MAKER
    exif.get_ifd(GPS)[NORTH] = "N"
    return saved(picture, "JPEG", exif=exif, comment=COMMENT, xmp=XMP, icc_profile=b"a profile")


def png_that_claims(width: int, height: int) -> bytes:
    """A few bytes that say they are a large picture (PNG, 11.2.2)."""
    parts = [(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)), (b"IDAT", zlib.compress(bytes(999)))]
    chunks = [struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
              for kind, data in [*parts, (b"IEND", b"")]]  # fmt: skip
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def moving(kind: str) -> bytes:
    return saved(Image.new("RGB", (9, 9)), kind, save_all=True, append_images=[Image.new("RGB", (9, 9), "red")])


def letter(words: str = "Award letter", typed: str = "typed by hand") -> bytes:
    """A PDF with a filled form, a photograph, an author, a link, scripts and an attached program."""
    file = io.BytesIO()
    page = Canvas(file, pageCompression=0)
    page.setAuthor("Quay author")
    page.drawString(72, 720, words)
    page.acroForm.textfield(name="number", value=typed, x=72, y=650, width=200, height=30)
    page.acroForm.checkbox(name="yes", checked=True, x=300, y=650, size=20)
    page.drawImage(ImageReader(io.BytesIO(photograph())), 72, 400, 200, 200)
    page.linkURL("https://example.org/quaylink", (72, 700, 200, 730))
    page.showPage()
    page.save()
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(file.getvalue()))
    script = {NameObject("/S"): NameObject("/JavaScript"), NameObject("/JS"): TextStringObject("quayscript")}
    writer.root_object[NameObject("/OpenAction")] = DictionaryObject(script)
    writer.pages[0][NameObject("/AA")] = DictionaryObject({NameObject("/O"): DictionaryObject(script)})
    writer.add_attachment("quay.exe", b"MZ quayprogram")
    return written(writer)


def locked() -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(letter()))
    writer.encrypt("a password")
    return written(writer)


def written(writer: pypdf.PdfWriter) -> bytes:
    file = io.BytesIO()
    writer.write(file)
    return file.getvalue()
