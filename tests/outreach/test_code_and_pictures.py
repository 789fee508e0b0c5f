"""The code to scan, and pictures from outside."""

from __future__ import annotations

from dataclasses import replace

import pytest
import zxingcpp
from PIL import Image, ImageFilter, ImageOps

from outreach.page import PictureRefused, contact_card, open_picture
from outreach.page.paper import MILLIMETRE
from outreach.page.qr import QUIET, Qr
from tests.outreach import sheets


def test_the_code_on_the_sheet_is_the_teachers_school_contact():
    card = sheets.sheet(sheets.SHEET).code()
    assert card.startswith("BEGIN:VCARD")
    assert "FN:June Castellanos" in card
    assert "TEL:(201) 555-0123" in card
    assert "EMAIL:june.castellanos@example.org" in card


@pytest.mark.parametrize("facts", [sheets.LONG_SHEET, replace(sheets.SHEET, paper="a4", teacher="Ñusta Ávila")])
def test_the_code_reads_from_the_longest_names_and_both_papers(facts):
    assert f"FN:{facts.teacher}" in sheets.sheet(facts).code()


def test_the_code_reads_from_a_pale_blurred_grey_copy():
    picture = sheets.sheet(sheets.SHEET).picture().filter(ImageFilter.GaussianBlur(1.0))
    pale = ImageOps.autocontrast(picture).point(lambda level: 70 + level * 150 // 255)
    assert "June Castellanos" in zxingcpp.read_barcodes(pale)[0].text


def test_nothing_stands_in_the_quiet_zone():
    """ISO/IEC 18004: four white modules on each side, measured in the printed page."""
    picture = sheets.sheet(sheets.SHEET).picture(dots=300)
    place = zxingcpp.read_barcodes(picture)[0].position
    module = Qr(sheets.sheet(sheets.SHEET).code()).module * 300 / 72
    quiet = int(QUIET * module) - 2
    left, top, right, bottom = place.top_left.x, place.top_left.y, place.bottom_right.x, place.bottom_right.y
    around = picture.crop((left - quiet, top - quiet, right + quiet, bottom + quiet))
    around.paste(255, (quiet - 3, quiet - 3, quiet + right - left + 3, quiet + bottom - top + 3))
    assert min(around.tobytes()) > 240


@pytest.mark.parametrize("length", [20, 150, 400, 1_500])
def test_a_module_is_never_under_a_third_of_a_millimetre(length):
    """Four dots of a printer with 300 dots an inch."""
    assert Qr("x" * length).module / MILLIMETRE >= 0.33


def test_without_a_school_contact_there_is_no_code():
    assert sheets.sheet(replace(sheets.SHEET, phone="", email="")).code() == ""


def test_more_than_a_code_can_hold_gives_none():
    assert Qr("x" * 5_000).wide == 0


def test_a_card_escapes_what_the_format_reads():
    """RFC 2426 section 4: backslash, comma and semicolon are escaped."""
    card = contact_card("Doe; Ann, B\\C", "Millrace\r\nEND:VCARD")
    assert "FN:Doe\\; Ann\\, B\\\\C\r\n" in card
    assert card.count("\r\nEND:VCARD") == 1


def test_pictures_lose_their_transparency_colour_and_size():
    clear = Image.new("RGBA", (3_000, 1_500), (0, 0, 0, 0))
    opened = open_picture(sheets.png(clear))
    assert (opened.mode, opened.width, opened.height) == ("L", 1_200, 600)
    assert set(opened.pixels) == {255}


def test_a_coloured_picture_keeps_its_colour():
    assert open_picture(sheets.png(Image.new("RGB", (10, 10), "red"))).mode == "RGB"


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (lambda: b"<svg/>", "not a picture"),
        (lambda: b"", "not a picture"),
        (lambda: sheets.png(Image.new("L", (6_000, 5_000))), "too large"),
        (lambda: b"x" * 8_000_001, "too large"),
        (lambda: sheets.png(Image.new("L", (50, 50)))[:60], "not a picture"),
    ],
)
def test_what_is_no_picture_or_too_large_is_refused(data, why):
    with pytest.raises(PictureRefused) as refused:
        open_picture(data())
    assert refused.value.why == why


def test_a_logo_and_a_signature_are_printed_and_stored_once():
    logo = sheets.logo()
    facts = replace(sheets.LETTER, letterhead=replace(sheets.SCHOOL, logo=logo), signature=logo)
    pages = sheets.letter(facts).reader.pages
    assert len(pages[0].images) == 1
    assert len(sheets.letter(facts).data) < len(logo.pixels)
