"""Files for a spreadsheet."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.csv_out import csv_lines, csv_response, guarded, unguarded

cells = st.text(st.characters(exclude_categories=["Cs"]))


@given(cells)
def test_what_is_guarded_is_read_back_as_it_was(cell):
    assert unguarded(guarded(cell)) == cell


@given(cells)
def test_no_cell_begins_like_a_formula(cell):
    assert guarded(cell)[:1] not in set("=+-@\t\r\n")


@given(st.lists(st.lists(cells, min_size=2, max_size=4), max_size=5))
def test_a_standard_reader_reads_every_row_back(rows):
    file = io.StringIO("".join(csv_lines(rows)), newline="")
    assert [[unguarded(cell) for cell in row] for row in csv.reader(file, strict=True)] == rows


def test_nothing_is_an_empty_cell():
    assert "".join(csv_lines([[None, 0, ""]])) == '"","0",""\r\n'


@pytest.mark.parametrize("phone", ["+12015550123", "(201) 555-0123"])
def test_a_phone_number_is_read_back(phone):
    assert unguarded(guarded(phone)) == phone


def test_the_download_is_streamed_in_utf_8_with_its_name():
    response = csv_response("partners.csv", ["Name"], iter([["Café"], ["=1+1"]]))
    assert response.streaming
    assert b"".join(response.streaming_content).decode("utf-8-sig") == '"Name"\r\n"Café"\r\n"\'=1+1"\r\n'
    assert response.headers["Content-Disposition"] == 'attachment; filename="partners.csv"'
