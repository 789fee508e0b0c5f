"""Which signs can be printed, and what happens to the others."""

from __future__ import annotations

import unicodedata

import pytest

from outreach.page import lost_signs, on_paper, printable, unprintable
from outreach.page.fonts import width
from tests.outreach.sheets import SHEET


@pytest.mark.parametrize(
    "text",
    ["Müller & Söhne", "Peña", "Nguyễn Thị Hường", "Łódź", "Çağla", "O’Brien – “Frames”", "Αθήνα", "½ × 4 in."],
)
def test_accents_and_vietnamese_can_be_printed(text):
    assert unprintable(text) == []
    assert printable(text) == text


def test_separate_accents_are_put_together_first():
    apart = unicodedata.normalize("NFD", "Nguyễn")
    assert unprintable(apart) == []
    assert printable(apart) == "Nguyễn"


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("Bluebird 🥐 Bakery", ["🥐"]),
        ("香港 Tea", ["香", "港"]),
        ("פרחים", ["פ", "ר", "ח", "י", "ם"]),
        ("مرحبا", ["م", "ر", "ح", "ب", "ا"]),
        ("by 👩🏽‍🎨 and 👩🏽‍🎨", ["👩🏽‍🎨"]),
        ("🇺🇸", ["🇺🇸"]),
        ("\ue000", ["\ue000"]),
    ],
)
def test_signs_that_the_font_lacks_are_named_as_a_reader_sees_them(text, signs):
    assert unprintable(text) == signs


def test_a_missing_sign_goes_with_the_blank_it_doubled():
    assert printable("Bluebird 🥐 Bakery") == "Bluebird Bakery"
    assert printable("🥐 Bluebird 🥐") == "Bluebird"


def test_invisible_marks_and_line_ends_are_no_signs():
    text = "Blue\u200bbird\u202e\nBakery\t\u00adHouse\x00"
    assert unprintable(text) == []
    assert printable(text) == "Bluebird Bakery House"


def test_facts_tell_which_value_loses_which_signs():
    from dataclasses import replace

    lost = lost_signs(replace(SHEET, partner="Tamarack 🔨", asks=(replace(SHEET.asks[0], kind="香"),)))
    assert [(one.field, one.signs) for one in lost] == [("partner", ("🔨",)), ("asks.0.kind", ("香",))]


def test_a_value_of_missing_signs_only_counts_as_empty_on_paper():
    from dataclasses import replace

    assert on_paper(replace(SHEET, partner="香港")).partner == ""
    assert on_paper(SHEET) is SHEET


def test_widths_are_the_fonts_own():
    """Lato's hmtx table: space 386, H 1494 of 2000 units an em, read with another reader."""
    assert width(" ") == pytest.approx(_advance(" "))
    assert width("H", "bold") == pytest.approx(_advance("H", bold=True), abs=0.001)


def _advance(sign: str, *, bold: bool = False) -> float:
    from importlib.resources import as_file, files

    from PIL import ImageFont

    name = "Lato-Bold.ttf" if bold else "Lato-Regular.ttf"
    with as_file(files("fontpkg_lato") / "files" / name) as path:
        face = ImageFont.truetype(str(path), 2000, layout_engine=ImageFont.Layout.BASIC)
    return face.getlength(sign) / 2000
