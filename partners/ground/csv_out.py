"""Lists as files that a spreadsheet opens: RFC 4180, streamed, and no cell ever runs as a formula."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from django.http import StreamingHttpResponse

# The signs that the OWASP page on CSV injection names; the full-width ones stand there too (from memory).
_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
# Spreadsheets take a file without it for the alphabet of the machine, and spoil accents. Common practice.
BYTE_ORDER_MARK = "\ufeff"


def guarded(cell: str) -> str:
    """The cell with an apostrophe before it where a spreadsheet would run it: `=1+2` → `'=1+2`."""
    return f"'{cell}" if _FORMULA.match(cell) else cell


def unguarded(cell: str) -> str:
    """What `guarded` was given: for reading such a file in again."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell


class _Echo:
    def write(self, line: str) -> str:
        return line


def csv_lines(rows: Iterable[Sequence[Any]]) -> Iterator[str]:
    """Each row as one record of RFC 4180, every cell in quotes; None is an empty cell."""
    # Quotes round every cell: a sheet that parts cells at semicolons then still finds none inside.
    writer: Any = csv.writer(_Echo(), quoting=csv.QUOTE_ALL)
    for row in rows:
        yield writer.writerow([guarded("" if cell is None else str(cell)) for cell in row])


def csv_response(name: str, header: Sequence[Any], rows: Iterable[Sequence[Any]]) -> StreamingHttpResponse:
    """A download of that name (`partners.csv`), sent row by row in UTF-8."""

    def lines() -> Iterator[str]:
        yield BYTE_ORDER_MARK
        yield from csv_lines([header])
        yield from csv_lines(rows)

    return StreamingHttpResponse(
        lines(),
        content_type="text/csv; charset=utf-8; header=present",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )
