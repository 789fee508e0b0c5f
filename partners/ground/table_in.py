"""A file that somebody sends, read into rows of cells, whatever program wrote it: CSV or XLSX.

CSV is read by RFC 4180, parted by commas, semicolons, tabs or bars, in UTF-8, UTF-16 or Windows-1252. Nothing is
taken from the file's name. Every bound is checked before, or while, the file is read.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator

from partners.ground.grid import GridRow
from partners.ground.plain import PlainError, gettext_noop
from partners.ground.table_rows import Table, filled_rows
from partners.ground.xlsx_in import read_xlsx

MOST_BYTES = 10 * 1024 * 1024
SIGNS = (",", ";", "\t", "|")

TOO_LARGE = gettext_noop(
    "This file is %(size)s MB large; at most %(most)s MB can be read. Split it, or save it without pictures."
)
EMPTY = gettext_noop("There is nothing in this file.")
OLD_EXCEL = gettext_noop(
    "This is a spreadsheet of the old kind (.xls). Open it, save it as .xlsx or CSV, and send that."
)
A_PICTURE = gettext_noop("This is a picture and no table, whatever the file is called. Send a CSV or XLSX file.")
A_PDF = gettext_noop("This is a PDF. Send the table it was made from, as a CSV or XLSX file.")
NOT_TEXT = gettext_noop("This file cannot be read as a table. Save it as CSV (UTF-8) or XLSX and send that.")
BROKEN_ROW = gettext_noop(
    "Row %(row)s cannot be read: a quotation mark is opened there and never closed, or something stands behind the one "
    "that closes. Save the table anew as CSV or XLSX."
)

_PICTURES = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"II*\x00", b"MM\x00*", b"\x00\x00\x00\x18ftyp")
_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe\x00\x00", "utf-32"),
    (b"\x00\x00\xfe\xff", "utf-32"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
_UNPRINTED = {code: None for code in range(32) if chr(code) not in "\t\n\r\x0b\x0c"}


def read_table(content: bytes, fits: Callable[[GridRow], int] = lambda head: 0, wanted: str = "") -> Table:
    """The table in a file. Of several sheets the one called `wanted`, else the one whose first row fits best.

    Raises PlainError.
    """
    if len(content) > MOST_BYTES:
        size = f"{len(content) / 1024**2:.1f}"
        raise PlainError("too_large", TOO_LARGE, size=size, most=MOST_BYTES // 1024**2)
    if content.startswith(b"PK"):
        table = read_xlsx(content, fits, wanted)
    else:
        _refuse_others(content)
        table = Table(filled_rows(_records(_decoded(content))))
    if not table.rows:
        raise PlainError("empty", EMPTY)
    return table


def _refuse_others(content: bytes) -> None:
    if content.startswith(b"\xd0\xcf\x11\xe0"):
        raise PlainError("old_excel", OLD_EXCEL)
    if content.startswith(b"%PDF"):
        raise PlainError("a_pdf", A_PDF)
    if content.startswith(_PICTURES) and not content.isascii():
        raise PlainError("a_picture", A_PICTURE)


def _decoded(content: bytes) -> str:
    """The text, by the mark at its start, else as UTF-8, else as Windows-1252. Raises PlainError."""
    marked = next((name for mark, name in _MARKS if content.startswith(mark)), "")
    # Text in UTF-16 has a zero in every other byte as long as it is mostly Latin; no other text has any.
    high, low = (part.count(0) * 2 > len(part) > 0 for part in (content[1:400:2], content[:400:2]))
    wide = "utf-16-le" if high else "utf-16-be" if low else ""
    for encoding in filter(None, (marked, wide) if marked or wide else ("utf-8", "cp1252")):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        bare = text.translate(_UNPRINTED)
        if "\x00" not in text and (len(text) - len(bare)) * 100 <= len(text):
            return bare
    raise PlainError("not_text", NOT_TEXT)


def _records(text: str) -> Iterator[list[str]]:
    first = text.split("\n", 1)[0].strip().lower()
    sign = ""
    if first.startswith("sep=") and len(first) == 5:
        # Some spreadsheets write their separator into a row of its own.
        sign, text = first[4], "\n" + text.split("\n", 1)[-1] if "\n" in text else ""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign or _sign_of(text), strict=True)
    number = 0
    try:
        for number, row in enumerate(reader, start=1):  # noqa: B007 -- the number is told when reading fails
            yield row
    except csv.Error:
        raise PlainError("broken_row", BROKEN_ROW, row=f"{number + 1:,}") from None


def _sign_of(text: str) -> str:
    """What parts the cells: of the signs, the one that stands most often outside of quotes in the first row."""
    counts = dict.fromkeys(SIGNS, 0)
    quoted = False
    for letter in text[:50_000].lstrip("\r\n"):
        if letter == '"':
            quoted = not quoted
        elif letter in "\r\n" and not quoted:
            break
        elif letter in counts and not quoted:
            counts[letter] += 1
    return max(SIGNS, key=lambda sign: counts[sign])
