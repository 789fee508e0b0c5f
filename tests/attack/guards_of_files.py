"""Guards of what is sent to the site as a file."""

from __future__ import annotations

import base64
import io
import json
import zipfile
import zlib
from contextlib import suppress
from typing import Any

import openpyxl
from django.contrib.staticfiles import finders
from django.core.exceptions import SuspiciousFileOperation
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from partners.ground import pictures
from partners.ground.plain import PlainError
from partners.ground.table_in import read_table
from partners.story import kept_rows
from tests.attack.guard import OWN, Site, guard, patched
from tests.ground import sent_files


def code_of(read: Any, content: bytes) -> str:
    """How it was refused; empty where it was taken."""
    try:
        read(content)
    except PlainError as refused:
        return refused.code
    return ""


@guard(
    "A picture is kept as its dots alone, whatever hangs on it (polyglots)",
    "5.2",
    patched("partners.ground.pictures.jpeg_of", lambda data, _kind: data),
)
def _(site: Site) -> None:
    page = b"<script>quay()</script><?php quay(); ?>"
    zipped = io.BytesIO()
    with zipfile.ZipFile(zipped, "w") as packed:
        packed.writestr("quay.exe", b"MZ")
    for kind in ("JPEG", "PNG", "WEBP"):
        sent = sent_files.saved(Image.new("RGB", (9, 9)), kind) + page + zipped.getvalue()
        kept = pictures.made_anew(sent).content
        assert not [part for part in (b"quay", b"<script", b"PK\x03\x04") if part in kept], kind


@guard(
    "What a file is, its bytes say, and never its name",
    "5.2",
    patched("partners.ground.pictures.format_of", lambda _start: "PNG"),
)
def _(site: Site) -> None:
    """Sent as "photo.jpg", all of them: the name is never read."""
    sent = {
        "drawn": b"<html><script>1</script>",
        "program": b"MZ\x90",
        "office": b"PK\x03\x04",
        "moving": b"GIF89a",
        "kind": b"words",
    }
    assert {code: code_of(pictures.made_anew, start + bytes(99)) for code, start in sent.items()} == {
        code: code for code in sent
    }


@guard(
    "A picture of a few bytes does not become gigabytes (PNG bomb)",
    "5.2",
    patched("partners.ground.pictures.refuse_pixels", lambda *_size: None),
)
def _(site: Site) -> None:
    assert code_of(pictures.made_anew, sent_files.png_that_claims(7_000, 7_000)) == "too_many_pixels"


@guard(
    "A PDF loses its scripts, files and links",
    "5.2",
    patched("partners.ground.pictures.written_anew", lambda data: data),
)
def _(site: Site) -> None:
    kept = pictures.made_anew(sent_files.letter()).content
    assert not [
        part for part in (b"JavaScript", b"quayscript", b"quayprogram", b"quaylink", b"Quay author") if part in kept
    ]


def many_pages() -> bytes:
    file = io.BytesIO()
    paper = Canvas(file)
    for _page in range(201):
        paper.showPage()
    paper.save()
    return file.getvalue()


@guard("A PDF of ever so many pages is not read", "5.2", patched("partners.ground.papers.MOST_PAGES", 9_999))
def _(site: Site) -> None:
    assert code_of(pictures.made_anew, many_pages()) == "too_many"


def book_that(**parts: Any) -> bytes:
    """A spreadsheet with one cell, and parts that claim a size of their own."""
    file, made = io.BytesIO(), io.BytesIO()
    book = openpyxl.Workbook()
    book.worksheets[0]["A1"] = "Name"
    book.save(made)
    with zipfile.ZipFile(made) as before, zipfile.ZipFile(file, "w") as after:
        for name in before.namelist():
            after.writestr(name, parts.get("change", lambda _name, part: part)(name, before.read(name)))
        if "claims" in parts:
            after.writestr("xl/media/picture.png", b"0")
            after.filelist[-1].file_size = parts["claims"]
    return file.getvalue()


@guard(
    "A spreadsheet that unpacks to gigabytes is not unpacked (zip bomb)",
    "5.2",
    patched("partners.ground.xlsx_in.MOST_UNPACKED", 2**50),
)
def _(site: Site) -> None:
    assert code_of(read_table, book_that()) == ""
    assert code_of(read_table, book_that(claims=10**10)) == "bomb"


def with_entity(name: str, part: bytes) -> bytes:
    """The sheet with an entity in its cell."""
    if name != "xl/worksheets/sheet1.xml":
        return part
    return b'<!DOCTYPE worksheet [<!ENTITY quay "grown">]>' + part.replace(b"Name", b"&quay;")


def hidden_entity(name: str, part: bytes) -> bytes:
    """The same in another alphabet, in which nobody would find its name."""
    return part if name != "xl/worksheets/sheet1.xml" else with_entity(name, part).decode().encode("utf-16")


@guard(
    "Nothing in a spreadsheet is expanded or fetched (XML entities)",
    "1.5",
    patched("partners.ground.xlsx_in._look_through", lambda _content: None),
)
def _(site: Site) -> None:
    assert code_of(read_table, book_that(change=with_entity)) == "broken"
    assert code_of(read_table, book_that(change=hidden_entity)) == "broken"


@guard(
    "Rows that come back with a form are measured while they are unpacked",
    "5.2",
    patched("partners.story.kept_rows.MOST_UNPACKED", 2**40),
)
def _(site: Site) -> None:
    rows = json.dumps({"sheet": "", "others": [], "rows": [[1, "a" * 2_000_000]]})
    packed = base64.b64encode(zlib.compress(rows.encode())).decode()
    if kept_rows.MOST_UNPACKED < 2**40:
        site.patch.setattr(kept_rows, "MOST_UNPACKED", 1_000_000)
    assert code_of(kept_rows.unpack, packed) == "not_whole"


@guard(
    "A name of a kept file begins no header and leaves no quotes",
    "5.4",
    patched("partners.funding.file_views.slugify", lambda text: text.replace("\r", "").replace("\n", "")),
)
def _(site: Site) -> None:
    site.book()
    attachment = site.june.program.attachments.get(pk=OWN)
    site.june.program.attachments.update(title='..\\../x"; filename="quay.exe\r\nSet-Cookie: a=1')
    answer = site.browser(site.june).get(attachment.get_absolute_url())
    name = answer["Content-Disposition"].partition("filename=")[2]
    assert name.count('"') == 2
    assert not set(name) & set("/\\;\r\n")
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "no-store" in answer["Cache-Control"]


@guard(
    "No address reaches a file beside the site's own (path traversal)",
    "5.3",
    patched("django.core.files.storage.filesystem.safe_join", lambda base, *parts: "/".join((str(base), *parts))),
)
def _(site: Site) -> None:
    assert finders.find("partners/tokens.css")
    for wanted in ("../" * 30 + "etc/passwd", "partners/" + "../" * 30 + "etc/passwd"):
        with suppress(SuspiciousFileOperation):
            assert finders.find(wanted) is None, wanted
        assert site.browser().get(f"/static/{wanted}").status_code == 404


@guard("A file of two million rows or five hundred columns is refused in words", "2.2", lambda site: unbounded(site))
def _(site: Site) -> None:
    assert code_of(read_table, b"a,b\n" * 20_002) == "too_many_rows"
    assert code_of(read_table, b"c," * 500 + b"c\n") == "too_many_columns"


def unbounded(site: Site) -> None:
    site.patch.setattr("partners.ground.table_rows.MOST_ROWS", 10**9)
    site.patch.setattr("partners.ground.table_rows.MOST_COLUMNS", 10**9)
