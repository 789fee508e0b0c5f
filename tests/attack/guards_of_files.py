"""Guards of what is sent to the site, and of what leaves it as a file."""

from __future__ import annotations

import base64
import email
import email.policy
import io
import json
import zipfile
import zlib
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import icalendar
import openpyxl
import pypdf
import vobject
from django.contrib.staticfiles import finders
from django.core.exceptions import SuspiciousFileOperation
from django.utils.safestring import SafeString
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from outreach.documents import leave_behind
from outreach.feeds import calendar, cards, mail
from outreach.page import overhear
from outreach.sheet_page import shown
from partners.ground import csv_out, pictures, xlsx_out
from partners.ground.plain import PlainError
from partners.ground.table_in import read_table
from partners.story import kept_rows
from tests.attack.guard import OWN, Site, guard, patched
from tests.ground import sent_files
from tests.outreach.sheets import SHEET
from tests.people import TUESDAY

FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "'=1")
ENDS = "Bells\r\nBcc: all@example.org\r\n\r\n<x7q>"


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


@guard("No cell of a CSV file runs as a formula", "1.2", patched("partners.ground.csv_out.guarded", lambda cell: cell))
def _(site: Site) -> None:
    assert list(csv_out.csv_lines([[cell] for cell in FORMULAS])) == [f'"\'{cell}"\r\n' for cell in FORMULAS]


@guard(
    "No cell of a spreadsheet runs as a formula", "1.2", patched("partners.ground.xlsx_out.guarded", lambda cell: cell)
)
def _(site: Site) -> None:
    content = b"".join(xlsx_out.xlsx([("Gifts", ["Head"], [[cell] for cell in FORMULAS])], TUESDAY))
    sheet = openpyxl.load_workbook(io.BytesIO(content)).worksheets[0]
    found = [row[0] for row in sheet.iter_rows(min_row=2)]
    assert {cell.data_type for cell in found} == {"s"}
    assert all(str(cell.value).startswith("'") for cell in found)


@guard("No line of text begins a header of a mail", "1.2", patched("outreach.feeds.mail.one_line", lambda text: text))
def _(site: Site) -> None:
    written = mail.draft(
        sender="june@example.org", name=ENDS, receivers=["dana@example.org"], subject=ENDS, body=ENDS,
        written_at=datetime(2026, 10, 6, tzinfo=UTC),
    )  # fmt: skip
    read = email.message_from_bytes(written, policy=email.policy.default)
    assert read.get_all("Bcc") == ["dana@example.org"]
    assert "all@example.org" in str(read["Subject"])
    assert read.get_content().startswith("Bells")


@guard(
    "No line of text begins a line of a contact card", "1.2", patched("outreach.feeds.cards.text", lambda value: value)
)
def _(site: Site) -> None:
    card = cards.Card(uid="1", name=ENDS, organization=ENDS, role="x\nEND:VCARD\nBEGIN:VCARD", email=ENDS, web=ENDS)
    written = b"".join(cards.card_file([card])).decode()
    assert written.count("END:VCARD\r\n") == 1
    assert not [line for line in written.split("\r\n") if line.startswith(("Bcc", "BCC", "<"))]
    assert "bcc" not in vobject.readOne(written).contents


@guard(
    "No line of text begins a line of a calendar",
    "1.2",
    patched("icalendar.prop.vText.to_ical", lambda self: str(self).encode()),
)
def _(site: Site) -> None:
    day = calendar.CalendarDay(
        uid="1", version=1, changed_at=datetime(2026, 10, 6, tzinfo=UTC), title="a\r\nEND:VEVENT\r\nX-QUAY:1",
        first_on=date(2026, 10, 6), place="b;c,d\nX-QUAY:2", told=("e\nX-QUAY:3", "f\nX-QUAY:4"),
    )  # fmt: skip
    written = calendar.calendar_file(day, name=ENDS)
    [event] = icalendar.Calendar.from_ical(written).walk("VEVENT")
    assert not [name for name in event if name.startswith("X-QUAY")]
    assert b"\r\nX-QUAY" not in written
    assert "X-QUAY:4" in str(event["DESCRIPTION"])


def drawn(text: str) -> bytes:
    return leave_behind.draw(replace(SHEET, offer_back=text, teacher=text, partner=text))


@guard(
    "Text on a sheet is no markup and no instruction of the PDF",
    "1.2",
    patched("outreach.page.store.text_string", lambda text: f"({text})"),
)
def _(site: Site) -> None:
    text = "Fern <b>moss</b> &amp; ) /OpenAction << /S /JavaScript /JS (quay) >> (\\ {{ 7|add:7 }}"
    reader = pypdf.PdfReader(io.BytesIO(drawn(text)))
    words = "".join("".join(page.extract_text() for page in reader.pages).split())
    assert "".join(text.split()) in words
    assert "/OpenAction" not in reader.root_object
    assert any("".join(text.split()) in "".join(str(said).split()) for said in (reader.metadata or {}).values())


@guard(
    "Text of a sheet is no markup of its page for the browser",
    "1.2",
    patched("outreach.sheet_page.format_html", lambda template, *args: raw(template, *args)),
)
def _(site: Site) -> None:
    body = "".join(str(shown(sheet).body) for sheet in overhear(lambda: drawn("Fern <x7q>moss")))
    assert "&lt;x7q&gt;" in body
    assert "<x7q>" not in body


def raw(template: str, *args: Any) -> Any:
    return SafeString(template.format(*args))


@guard("A file of two million rows or five hundred columns is refused in words", "2.2", lambda site: unbounded(site))
def _(site: Site) -> None:
    assert code_of(read_table, b"a,b\n" * 20_002) == "too_many_rows"
    assert code_of(read_table, b"c," * 500 + b"c\n") == "too_many_columns"


def unbounded(site: Site) -> None:
    site.patch.setattr("partners.ground.table_in.MOST_ROWS", 10**9)
    site.patch.setattr("partners.ground.table_in.MOST_COLUMNS", 10**9)
