"""An XLSX file read into rows of text by openpyxl, after its ZIP was looked through: what it would unpack to is known
before anything is unpacked (and no more than a part's declared size is ever unpacked, see `zipfile.ZipExtFile`).
"""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterator
from datetime import date, datetime, time
from typing import Any

from partners.ground.grid import GridRow
from partners.ground.plain import PlainError, gettext_noop
from partners.ground.table_rows import Table, filled_rows

# Twenty thousand rows of thirty columns take about thirty.
MOST_UNPACKED = 80 * 1024 * 1024
MOST_PARTS = 2000
LAST_ROW = 200_000
_ALPHABET = re.compile(rb"encoding\s*=\s*[\"']([A-Za-z0-9._-]{1,40})")

BOMB = gettext_noop(
    "This file would unpack to %(size)s MB; at most %(most)s MB are opened. Save the table alone as CSV or XLSX."
)
BROKEN = gettext_noop("This file is damaged and cannot be opened. Save the table anew as XLSX or CSV.")
LOCKED = gettext_noop("This file is locked by a password. Save it without one.")
NO_TABLE = gettext_noop("This is a packed file and no XLSX table. Save the table as XLSX or CSV and send that.")
FAR_DOWN = gettext_noop(
    "The sheet “%(sheet)s” goes on to row %(row)s or further. Copy the rows you need into a new sheet."
)


def read_xlsx(content: bytes, fits: Callable[[GridRow], int], wanted: str) -> Table:
    """The sheet called `wanted`, else the one whose first row fits best. Raises PlainError."""
    _look_through(content)
    try:
        return _opened(content, fits, wanted)
    except PlainError:
        raise
    # openpyxl answers a damaged file with whatever went wrong inside it: KeyError, ParseError, zlib.error …
    except Exception as error:
        raise PlainError("broken", BROKEN) from error


def _look_through(content: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
            size = sum(part.file_size for part in parts)
            if size > MOST_UNPACKED or len(parts) > MOST_PARTS:
                told = f"{size / 1024**2:,.0f}"
                raise PlainError("bomb", BOMB, size=told, most=MOST_UNPACKED // 1024**2)
            if any(part.flag_bits & 1 for part in parts):
                raise PlainError("locked", LOCKED)
            usual = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}
            if "xl/workbook.xml" not in packed.namelist() or any(part.compress_type not in usual for part in parts):
                raise PlainError("no_table", NO_TABLE)
            if not all(_is_plain(packed.read(part)) for part in parts if part.filename.endswith((".xml", ".rels"))):
                raise PlainError("broken", BROKEN)
    except PlainError:
        raise
    except Exception as error:
        raise PlainError("broken", BROKEN) from error


def _is_plain(part: bytes) -> bool:
    """No spreadsheet declares a document type; one that does means to have entities expanded.

    It is looked for in UTF-8, so nothing is read that could hide it in another alphabet.
    """
    declared = _ALPHABET.search(part[:200])
    in_utf_8 = b"\x00" not in part and (declared is None or declared[1].lower() in (b"utf-8", b"us-ascii"))
    return in_utf_8 and b"<!DOCTYPE" not in part


def _opened(content: bytes, fits: Callable[[GridRow], int], wanted: str) -> Table:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        book = openpyxl.load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    try:
        sheets = [sheet for sheet in book.worksheets if sheet.sheet_state == "visible"]
        named = [sheet for sheet in sheets if sheet.title.casefold() == wanted.casefold()]
        if not sheets:
            return Table([])
        chosen = (named or sorted(sheets, key=lambda sheet: -_fit(sheet, fits)))[0]
        rows = filled_rows(_rows(chosen))
        return Table(rows, chosen.title, tuple(sheet.title for sheet in sheets if sheet is not chosen))
    finally:
        book.close()


def _fit(sheet: Any, fits: Callable[[GridRow], int]) -> int:
    first = next((row for number, row in enumerate(_rows(sheet)) if any(row) or number > 50), [])
    return fits(GridRow(1, tuple(first)))


def _rows(sheet: Any) -> Iterator[list[str]]:
    # What a sheet says of its own size may be a million empty rows.
    sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(values_only=True), start=1):
        if number > LAST_ROW:
            raise PlainError("far_down", FAR_DOWN, sheet=sheet.title, row=f"{number:,}")
        yield [_text(value) for value in row]


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else f"{value:.15g}"
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return value.strftime("%H:%M")
    return str(value)
