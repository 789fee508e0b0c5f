"""The rows of a file, packed into a form's hidden field until they are saved: nothing of them lies about anywhere."""

from __future__ import annotations

import base64
import binascii
import json
import zlib

from partners.ground.grid import GridRow
from partners.ground.plain import PlainError, gettext_noop
from partners.ground.table_rows import MOST_COLUMNS, MOST_ROWS, Table

# A request holds at most ten megabytes besides its files.
MOST_PACKED = 7_000_000
MOST_UNPACKED = 64 * 1024 * 1024

TOO_FULL = gettext_noop("There is too much text in this file to look at it at once. Split it into several files.")
NOT_WHOLE = gettext_noop("The rows did not come back whole. Choose the file once more.")


def pack(table: Table) -> str:
    """Raises PlainError where it would not fit into a request."""
    told = {"sheet": table.sheet, "others": table.others, "rows": [[row.number, *row.cells] for row in table.rows]}
    text = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    packed = base64.b64encode(zlib.compress(text.encode("utf-8", "replace"), 6)).decode("ascii")
    if len(packed) > MOST_PACKED or len(text) > MOST_UNPACKED // 4:
        raise PlainError("too_full", TOO_FULL)
    return packed


def unpack(packed: str) -> Table:
    """What `pack` was given. It may have been changed on the way: raises PlainError for anything else."""
    try:
        engine = zlib.decompressobj()
        text = engine.decompress(base64.b64decode(packed, validate=True), MOST_UNPACKED)
        told = json.loads(text) if not engine.unconsumed_tail else None
    except (binascii.Error, zlib.error, ValueError, RecursionError):
        told = None
    if not isinstance(told, dict) or not _is_whole(told):
        raise PlainError("not_whole", NOT_WHOLE)
    rows = [GridRow(row[0], tuple(row[1:])) for row in told["rows"]]
    return Table(rows, told["sheet"], tuple(told["others"]))


def _is_whole(told: dict[str, object]) -> bool:
    rows, others = told.get("rows"), told.get("others")
    return (
        isinstance(told.get("sheet"), str)
        and isinstance(others, list)
        and all(isinstance(one, str) for one in others)
        and isinstance(rows, list)
        and 0 < len(rows) <= MOST_ROWS + 1
        and all(
            isinstance(row, list)
            and 1 < len(row) <= MOST_COLUMNS + 1
            and type(row[0]) is int
            and all(isinstance(cell, str) for cell in row[1:])
            for row in rows
        )
    )
