"""Files that somebody sends: whatever wrote them, and whatever is wrong with them."""

from __future__ import annotations

import csv
import io
import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partners.ground import table_in, xlsx_in
from partners.ground.plain import PlainError
from partners.ground.table_in import read_table
from partners.ground.xlsx_out import xlsx
from tests.people import TUESDAY
from tests.story.files import xlsx_file

ROWS = [("Name", "Note"), ("Café “Zoë”", 'a "b", c; d')]


def written(sign: str) -> str:
    file = io.StringIO()
    csv.writer(file, delimiter=sign).writerows(ROWS)
    return file.getvalue()


def cells(content: bytes) -> list[tuple[str, ...]]:
    return [row.cells for row in read_table(content).rows]


def refused(content: bytes) -> str:
    with pytest.raises(PlainError) as caught:
        read_table(content)
    assert str(caught.value)
    return caught.value.code


def packed(**parts: bytes) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in {"xl/workbook.xml": b"<workbook/>", **parts}.items():
            made.writestr(name, content)
    return file.getvalue()


@pytest.mark.parametrize("sign", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "utf-32"])
def test_every_separator_and_encoding_gives_the_same_rows(sign: str, encoding: str) -> None:
    """The standard library writes the file, in each of the encodings and with each of the signs."""
    assert cells(written(sign).encode(encoding)) == ROWS


@given(st.lists(st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"])), min_size=2, max_size=4), max_size=5))
@settings(max_examples=60)
def test_what_the_standard_writer_wrote_is_read_cell_by_cell(rows: list[list[str]]) -> None:
    file = io.StringIO()
    csv.writer(file).writerows([["a,b", "c"], *rows])
    found = {row.number: row.cells for row in read_table(file.getvalue().encode("utf-8-sig")).rows}
    for number, row in enumerate(rows, start=2):
        bare = found.get(number, ())
        assert list(bare) + [""] * (len(row) - len(bare)) == [*row[: len(bare)], *[""] * (len(row) - len(bare))]
        assert not "".join(row[len(bare) :]).strip()


def test_rows_are_numbered_as_the_spreadsheet_does() -> None:
    assert [row.number for row in read_table(b'sep=;\r\n\r\nName;Phone\r\n"two\r\nlines";1\r\n;\r\nx;2\r\n').rows] == [
        3,
        4,
        6,
    ]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "empty"), (b" \r\n , \r\n", "empty"), (b'a,b\n"open,1\n2,3\n', "broken_row"),
        (b'a\n"x"y\n', "broken_row"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "a_picture"), (b"%PDF-1.7\n", "a_pdf"),
        (bytes(range(256)) * 9, "not_text"),
        (b"\xd0\xcf\x11\xe0 rest", "old_excel"), (b"PK\x03\x04 no zip", "broken"),
        (b"c," * 500 + b"c\n", "too_many_columns"),
        (b"a,b\n" * 2_000_000, "too_many_rows"), (b"a" * (table_in.MOST_BYTES + 1), "too_large"),
    ],
)  # fmt: skip
def test_what_is_no_table_is_refused_with_a_sentence(content: bytes, code: str) -> None:
    assert refused(content) == code


def test_a_packed_file_is_measured_before_it_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    """What it declares is believed: `zipfile` unpacks no more of a part than the part declares."""
    monkeypatch.setattr(xlsx_in, "MOST_UNPACKED", 1_000_000)
    monkeypatch.setattr(openpyxl, "load_workbook", None)
    assert refused(packed(**{"xl/worksheets/sheet1.xml": b"0" * 1_000_001})) == "bomb"
    assert refused(packed(**{f"xl/{number}.xml": b"" for number in range(2001)})) == "bomb"


@pytest.mark.parametrize(
    ("parts", "code"),
    [
        ({"xl/workbook.xml": b'<!DOCTYPE x [<!ENTITY a "aa">]><workbook/>'}, "broken"),
        ({"xl/worksheets/sheet1.xml": b"<no xml"}, "broken"),
    ],
)
def test_a_spreadsheet_that_is_none_is_refused(parts: dict[str, bytes], code: str) -> None:
    assert refused(packed(**parts)) == code


def test_a_sheet_that_claims_a_million_rows_and_columns_is_read_as_far_as_it_is_filled() -> None:
    content = xlsx_file(["Name"], ["Elm Deli"])
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as before, zipfile.ZipFile(file, "w") as after:
        for name in before.namelist():
            part = before.read(name).replace(b'ref="A1:A2"', b'ref="A1:XFD1048576"')
            after.writestr(name, part)
    assert cells(file.getvalue()) == [("Name",), ("Elm Deli",)]


def test_a_row_far_down_and_a_wide_row_are_refused() -> None:
    book = openpyxl.Workbook()
    book.worksheets[0]["A1048576"] = "far"
    file = io.BytesIO()
    book.save(file)
    assert refused(file.getvalue()) == "far_down"
    assert refused(xlsx_file(["c"] * 500)) == "too_many_columns"


def test_openpyxl_reads_the_sheet_that_is_written_row_by_row() -> None:
    """openpyxl as the independent reader: text, numbers, days, accents, markup, line breaks, formulas as text."""
    rows = [["=1+1", "<b>&", "مكتبة", "two\r\nlines"], [12, TUESDAY, None, " kept "], ["a\x0bb"]]
    content = b"".join(xlsx([("Gifts/2026", ["Head"], rows), ("gifts 2026", ["Head"], [])], TUESDAY))
    book = openpyxl.load_workbook(io.BytesIO(content))
    assert book.sheetnames == ["Gifts 2026", "gifts 2026 2"]
    found = [[cell.value for cell in row] for row in book.worksheets[0].iter_rows(min_row=2)]
    assert found[0] == ["'=1+1", "<b>&", "مكتبة", "two\r\nlines"]
    assert [found[1][0], found[1][1].date(), found[1][2:], found[2][0]] == [12, TUESDAY, [None, " kept "], "ab"]
    assert book.worksheets[0]["A1"].font.b


def test_what_does_not_fit_goes_on_in_a_second_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("partners.ground.xlsx_out.MOST_ROWS", 3)
    book = openpyxl.load_workbook(io.BytesIO(b"".join(xlsx([("Visits", ["n"], ([n] for n in range(5)))], TUESDAY))))
    assert {sheet.title: [row[0] for row in sheet.values] for sheet in book} == {
        "Visits": ["n", 0, 1], "Visits 2": ["n", 2, 3], "Visits 3": ["n", 4],
    }  # fmt: skip
