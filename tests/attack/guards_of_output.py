"""Guards of what leaves the site as a file or a sheet."""

from __future__ import annotations

import email
import email.policy
import io
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import icalendar
import openpyxl
import pypdf
import vobject
from django.utils.safestring import SafeString

from outreach.documents import leave_behind
from outreach.feeds import calendar, cards, mail
from outreach.page import overhear
from outreach.sheet_page import shown
from partners.ground import csv_out, xlsx_out
from tests.attack.guard import Site, guard, patched
from tests.outreach.sheets import SHEET
from tests.people import TUESDAY

FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "'=1")
ENDS = "Bells\r\nBcc: all@example.org\r\n\r\n<x7q>"


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
