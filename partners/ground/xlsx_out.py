"""Lists as one XLSX file with a sheet for each, written row by row (ECMA-376, the smallest book that readers open).

Text stands in its own cell and not in a common table of texts, so that nothing has to be kept. No cell is a formula,
and none begins like one either: a sheet is often saved as CSV later.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from partners.ground.csv_out import guarded
from partners.ground.zip_out import gathered, zipped

MOST_ROWS = 1_048_576
LONGEST_CELL = 32_767
LONGEST_NAME = 31
# Day 60 is the 29th of February 1900, which never was; days before it are written as text.
FIRST_DAY, COUNTED_FROM = date(1900, 3, 1), date(1899, 12, 30)
A_DAY, A_HEAD = 1, 2

Sheet = tuple[str, Sequence[Any], Iterable[Sequence[Any]]]

_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
# What XML 1.0 cannot hold at all.
_NO_SIGNS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_STYLES = (
    f'{_HEAD}<styleSheet xmlns="{_MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/>'
    '</numFmts><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/>'
    '<name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill>'
    '<patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1">'
    '<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="3">'
    '<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'
    '<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>'
    '<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)


def xlsx(sheets: Iterable[Sheet], day: date) -> Iterator[bytes]:
    """Sheets as (name, heads, rows), in this order. What a sheet cannot hold goes on in a second one of its name."""
    return zipped(_parts(sheets), day)


def _parts(sheets: Iterable[Sheet]) -> Iterator[tuple[str, Iterable[bytes]]]:
    names: list[str] = []
    for name, heads, rows in sheets:
        left = iter(rows)
        more: list[Sequence[Any]] = []
        while True:
            names.append(_free(name, names))
            more = []
            yield f"xl/worksheets/sheet{len(names)}.xml", gathered(_sheet(heads, left, more))
            if not more:
                break
            left = _before(more[0], left)
    yield "xl/workbook.xml", gathered(_book(names))
    yield "xl/_rels/workbook.xml.rels", gathered(_relations(len(names)))
    yield "xl/styles.xml", gathered([_STYLES])
    to_book = f'<Relationship Id="rId1" Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/>'
    yield "_rels/.rels", gathered([f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{to_book}</Relationships>'])
    yield "[Content_Types].xml", gathered(_kinds(len(names)))


def _before(first: Sequence[Any], rows: Iterator[Sequence[Any]]) -> Iterator[Sequence[Any]]:
    yield first
    yield from rows


def _sheet(heads: Sequence[Any], rows: Iterator[Sequence[Any]], more: list[Sequence[Any]]) -> Iterator[str]:
    """The sheet's XML; the first row that finds no room stands in `more` afterwards."""
    pane = '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>'
    yield f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetViews><sheetView workbookViewId="0">{pane}</sheetView></sheetViews>'
    yield f'<cols><col min="1" max="{max(1, len(heads))}" width="20" customWidth="1"/></cols><sheetData>'
    yield f"<row>{''.join(_text(str(head), A_HEAD) for head in heads)}</row>"
    for number, row in enumerate(rows, start=2):
        if number > MOST_ROWS:
            more.append(row)
            break
        yield f"<row>{''.join(map(_cell, row))}</row>"
    yield "</sheetData></worksheet>"


def _cell(value: Any) -> str:
    if value is None or value == "":
        return "<c/>"
    if isinstance(value, int | Decimal) and not isinstance(value, bool):
        return f"<c><v>{value}</v></c>"
    if isinstance(value, date) and value >= FIRST_DAY:
        return f'<c s="{A_DAY}"><v>{(value - COUNTED_FROM).days}</v></c>'
    return _text(str(value))


def _text(words: str, style: int = 0) -> str:
    bare = escape(guarded(_NO_SIGNS.sub("", words))[:LONGEST_CELL], {"\r": "&#13;"})
    return f'<c t="inlineStr" s="{style}"><is><t xml:space="preserve">{bare}</t></is></c>'


def _free(name: str, taken: list[str]) -> str:
    """At most 31 signs, none of those a sheet's name cannot have, and not the name of another."""
    bare = re.sub(r"[\[\]:*?/\\]", " ", name)[:LONGEST_NAME] or "Sheet"
    number, found = 1, bare
    while found.casefold() in {one.casefold() for one in taken}:
        number += 1
        found = f"{bare[: LONGEST_NAME - len(str(number)) - 1]} {number}"
    return found


def _book(names: Sequence[str]) -> Iterator[str]:
    yield f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>'
    for number, name in enumerate(names, start=1):
        yield f'<sheet name={quoteattr(name)} sheetId="{number}" r:id="rId{number}"/>'
    yield "</sheets></workbook>"


def _relations(count: int) -> Iterator[str]:
    yield f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">'
    for number in range(1, count + 1):
        yield f'<Relationship Id="rId{number}" Type="{_OFFICE}/worksheet" Target="worksheets/sheet{number}.xml"/>'
    yield f'<Relationship Id="rId{count + 1}" Type="{_OFFICE}/styles" Target="styles.xml"/></Relationships>'


def _kinds(count: int) -> Iterator[str]:
    yield f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types">'
    yield '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    yield '<Default Extension="xml" ContentType="application/xml"/>'
    yield f'<Override PartName="/xl/workbook.xml" ContentType="{_KIND}.sheet.main+xml"/>'
    yield f'<Override PartName="/xl/styles.xml" ContentType="{_KIND}.styles+xml"/>'
    for number in range(1, count + 1):
        yield f'<Override PartName="/xl/worksheets/sheet{number}.xml" ContentType="{_KIND}.worksheet+xml"/>'
    yield "</Types>"
