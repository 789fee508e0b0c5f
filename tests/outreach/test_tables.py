"""Tables and grids over several pages: nothing is lost, and each page has its heading."""

from __future__ import annotations

from io import BytesIO

import pytest

from outreach.page import LETTER, Book, Column, Grid, GridRow, Paragraph, Sheet, Signatures, Table, cells, draw_sheet
from outreach.page.sheet import COMPANY, measured
from tests.outreach.sheets import Printed

COLUMNS = (Column("Name", 2), Column("Phone"), Column("In"))


def printed(*blocks):
    book, file = Book(LETTER, language="en"), BytesIO()
    draw_sheet(Sheet("Test", flow=blocks), book)
    book.save(file)
    return Printed(file.getvalue())


def table(count, room=0.0):
    return Table(COLUMNS, tuple(cells(f"row{number:03}", "555-0100", "") for number in range(count)), room=room)


@pytest.mark.parametrize("count", [1, 2, 30, 31, pytest.param(100, marks=pytest.mark.nightly)])
def test_every_row_is_printed_once_and_every_page_has_the_heading(count):
    found = printed(Paragraph("Before"), table(count), Paragraph("After"))
    assert all(found.text.count(f"row{number:03}") == 1 for number in range(count))
    assert all("Name Phone In" in page for page in found.pages if "row" in page)
    assert found.text.startswith("Before")
    assert found.text.endswith("After") or "After page" in found.text


def test_no_heading_is_cut_within_a_word():
    months = Table((Column("Month", 1.6), *(Column("May") for _n in range(13))), (cells(*"0123456789abcd"),))
    assert printed(months).text.startswith("Month " + "May " * 13)


def test_a_table_without_rows_is_not_printed():
    assert printed(Paragraph("Only"), Table(COLUMNS, ())).text == "Only"


def test_a_table_without_titles_has_no_heading():
    rows = (cells("one", "two"), cells("three", ""))
    assert printed(Table((Column(""), Column("")), rows)).text == "one two three"


def test_room_to_write_makes_rows_higher():
    assert len(printed(table(40, room=3)).pages) > len(printed(table(40)).pages)


def test_columns_are_as_wide_as_their_share():
    signs = printed(table(1)).signs()
    word = "".join(sign.sign for sign in signs)
    assert signs[word.index("Phone")].left - signs[0].left == pytest.approx(6.5 / 2, abs=0.03)


def test_a_long_word_stays_in_its_cell():
    signs = printed(Table(COLUMNS, (cells("W" * 80, "x" * 90, "é"),))).signs()
    assert all(sign.left > 1 and sign.right < 7.5 for sign in signs)
    assert max(sign.right for sign in signs if sign.sign == "W") < 1 + 6.5 / 2


def test_a_row_of_the_wrong_length_is_refused():
    with pytest.raises(ValueError, match="zip"):
        printed(Table(COLUMNS, (cells("one", "two"),)))


def test_a_heading_in_a_grid_stays_with_its_rows_and_comes_again():
    rows = [GridRow("Millrace", heading=True), *(GridRow(f"row{number}", "9") for number in range(60))]
    found = printed(Grid(("Class", "Make"), ("Mar 1",), tuple(rows)))
    assert len(found.pages) > 1
    assert all("Class Make Mar 1" in page and "Millrace" in page for page in found.pages)


def test_a_heading_without_rows_is_still_printed():
    assert "Millrace" in printed(Grid(("Class", "Make"), ("Mar 1",), (GridRow("Millrace", heading=True),))).text


def test_signatures_have_room_for_who_signs():
    text = printed(Signatures(("for the school", "for " + "a very long name " * 8), "Date")).text
    assert text.count("Date") == 2
    assert text.count("a very long name") == 8


def test_the_last_rows_of_a_table_go_on_to_the_last_page_in_company():
    for count in (52, 53):
        *_before, page = measured(Sheet("A list", (table(count),)), LETTER).pages
        # The heading stands above them.
        assert len(page) > COMPANY, count
