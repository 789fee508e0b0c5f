"""The address of a letter against the window of a #10 envelope and the post office's rules."""

from __future__ import annotations

from dataclasses import replace

import pytest

from outreach.page import A4, INCH, LETTER, WindowAddress, last_line, window_clear, window_reach
from tests.outreach import sheets


def inches(box):
    return [round(side / INCH, 3) for side in box]


def test_what_a_window_always_shows_of_a_sheet_folded_at_four_inches():
    """Window 1-1/8 x 4-1/2 in, 7/8 in from the left, 1/2 in from the bottom of 9-1/2 x 4-1/8 in (manufacturer's sheet);
    intersection of its places, an eighth of an inch kept: x 1.000-4.250, y 2.625-3.375 in."""
    assert inches(window_clear(LETTER)) == [1.0, 2.625, 4.25, 3.375]


def test_a_window_further_right_moves_the_address():
    """The same envelope with its window 1-3/8 in from the left, as some makers have it: half an inch further."""
    assert inches(window_clear(LETTER, 1.375 * INCH)) == [1.5, 2.625, 4.75, 3.375]


def test_narrower_paper_slides_further():
    """A4 is 8.268 in wide (ISO 216: 210 mm), so it slides 0.232 in more."""
    assert inches(window_clear(A4)) == [1.0, 2.625, 4.018, 3.375]


@pytest.mark.parametrize(
    ("parts", "line"),
    [
        (("Memphis", "TN", "38188-1001"), "MEMPHIS TN  38188-1001"),
        (("St. Louis,", "mo", "63101"), "ST LOUIS MO  63101"),
    ],
)
def test_the_last_line_is_in_capitals_without_marks(parts, line):
    """USPS Publication 28 (October 2023): capitals, no punctuation, two spaces before the code, its example."""
    assert last_line(*parts) == line


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("facts", [sheets.LETTER, sheets.LONG_LETTER])
def test_the_printed_address_is_inside_the_window_and_alone_in_it(facts, paper):
    """Measured in the PDF: ink of every sign that can ever show through lies where it always shows."""
    printed = sheets.letter(replace(facts, paper=paper))
    clear, reach = (inches(box) for box in (window_clear(_paper(paper)), window_reach(_paper(paper))))
    shown = [sign for sign in printed.signs() if reach[1] < sign.bottom and sign.top < reach[3]]
    assert "".join(sign.sign for sign in shown).endswith("97000-1234")
    assert min(sign.left for sign in shown) >= clear[0] - 0.001
    assert max(sign.right for sign in shown) <= clear[2] + 0.001
    assert min(sign.top for sign in shown) >= clear[1] - 0.001
    assert max(sign.bottom for sign in shown) <= clear[3] + 0.001


def test_the_address_with_accents_stays_inside():
    address = replace(sheets.ADDRESS, person="ẤẾÅÑ Ộgįqy", street=("Ậ1 ỢỢ ST",))
    shown = [sign for sign in sheets.letter(replace(sheets.LETTER, address=address)).signs() if 2.4 < sign.top < 3.6]
    assert min(sign.top for sign in shown) >= 2.624
    assert max(sign.bottom for sign in shown) <= 3.376


def test_no_address_is_set_in_type_under_eight_points():
    """USPS Domestic Mail Manual 202: type of at least 8 points."""
    clear = window_clear(LETTER)
    for address in (sheets.ADDRESS, sheets.LONG_LETTER.address, replace(sheets.ADDRESS, street=("W" * 300,))):
        _lines, size, _step = WindowAddress(address, clear.height).fitted(clear.width)
        assert size >= 8


def test_the_fold_is_marked_at_four_inches():
    picture = sheets.letter(sheets.LETTER).picture(dots=100)
    left_edge = picture.crop((26, 399, 48, 402))
    assert min(left_edge.tobytes()) < 250


def _paper(name):
    return {"letter": LETTER, "a4": A4}[name]
