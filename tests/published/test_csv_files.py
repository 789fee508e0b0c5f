"""Files for spreadsheets against the published rules."""

from __future__ import annotations

import pytest

from partners.ground.csv_out import csv_lines, guarded


def test_quotes_inside_a_cell_are_doubled():
    """RFC 4180 section 2.7 (October 2005): a double quote inside a field is escaped by another."""
    assert "".join(csv_lines([["aaa", 'b "bb"', "ccc"]])) == '"aaa","b ""bb""","ccc"\r\n'


def test_commas_and_line_breaks_stand_inside_quotes():
    """RFC 4180 section 2.6: `"aaa","b CRLF bb","ccc"`."""
    assert "".join(csv_lines([["aaa", "b\r\nbb", "c,cc"]])) == '"aaa","b\r\nbb","c,cc"\r\n'


def test_a_formula_with_a_separator_and_a_quote_becomes_text():
    """OWASP, "CSV Injection": `=1+2";=1+2` becomes `"'=1+2"";=1+2"`."""
    assert "".join(csv_lines([['=1+2";=1+2']])) == '"\'=1+2"";=1+2"\r\n'


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r", "\n"])
def test_cells_never_begin_with_what_starts_a_formula(sign):
    """OWASP, "CSV Injection": equals, plus, minus, at, tab, carriage return, line feed."""
    assert guarded(f"{sign}cmd").startswith("'")
