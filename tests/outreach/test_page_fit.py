"""Fit to page: smaller type and tighter gaps first, then a proper further page; empty blocks vanish."""

from __future__ import annotations

from io import BytesIO

import pytest

from outreach.page import A4, LETTER, LETTER_LOOKS, Bullets, Framed, Heading, Pairs, Paragraph, Sheet, SignOff, Stack
from outreach.page.book import Book
from outreach.page.sheet import arrange, draw_sheet, measured
from tests.outreach.sheets import Printed

SENTENCE = "Each child paints a pot, sows basil in it and takes it home before the summer begins. "


def sheet_of(count, **changes):
    flow = tuple(Paragraph(f"{number}. {SENTENCE * 2}") for number in range(1, count + 1))
    return Sheet("A sheet", flow, **changes)


def drawn(sheet, paper=LETTER):
    book = Book(paper, title="A sheet", language="en")
    draw_sheet(sheet, book)
    file = BytesIO()
    book.save(file)
    return Printed(file.getvalue())


def test_little_text_takes_the_largest_look():
    assert measured(sheet_of(2), LETTER).look.size == 14


def test_more_text_takes_smaller_type_before_a_second_page():
    sizes = [measured(sheet_of(count), LETTER).look.size for count in (5, 14, 18)]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[-1] < 14
    assert len(measured(sheet_of(18), LETTER).pages) == 1


def test_no_look_is_smaller_than_eleven_points():
    assert min(look.size for look in LETTER_LOOKS) == 11
    assert measured(sheet_of(80), LETTER).look.size == 11


def test_too_much_text_goes_on_with_the_heading_and_the_count():
    pages = drawn(sheet_of(60, running="To Tamarack Hardware")).pages
    assert len(pages) >= 2
    assert "To Tamarack Hardware" not in pages[0]
    assert all("To Tamarack Hardware" in page for page in pages[1:])
    assert all(f"page {number} of {len(pages)}" in page for number, page in enumerate(pages, 1))


@pytest.mark.parametrize("paper", [LETTER, A4])
def test_every_paragraph_comes_once_over_all_pages(paper):
    text = drawn(sheet_of(60), paper).text
    assert all(text.count(f" {number}. Each") == 1 for number in range(2, 61))


def test_the_closing_never_stands_alone_on_a_page():
    for count in range(18, 44):
        sheet = Sheet(
            "A letter",
            (*sheet_of(count).flow, SignOff("With thanks,", "June Castellanos")),
            together=1,
            looks=LETTER_LOOKS,
        )
        last = drawn(sheet).pages[-1]
        assert "Each child" in last
        assert "June Castellanos" in last


def test_a_frame_goes_on_over_the_page():
    frame = Framed(sheet_of(60).flow)
    printed = drawn(Sheet("A sheet", (frame,)))
    assert len(printed.pages) > 1
    assert printed.text.count("Each child") == 120


def test_empty_blocks_vanish_and_the_space_closes():
    nothing = (
        Paragraph(""),
        Heading(" "),
        Bullets(("",)),
        Pairs((("Label", ""),)),
        Framed((Paragraph("🥐"),)),
        Stack(()),
    )
    book = Book(LETTER, language="en")
    full, empty = (
        arrange(Sheet("x", (Paragraph("one"), *between, Paragraph("two"))), book) for between in ((), nothing)
    )
    assert [(placed.x, placed.y) for placed in full.pages[0]] == [(placed.x, placed.y) for placed in empty.pages[0]]


def test_nothing_is_drawn_off_the_sheet():
    printed = drawn(sheet_of(60, running="To Tamarack Hardware"))
    for number in range(len(printed.pages)):
        for sign in printed.signs(number):
            assert sign.left > 0.9
            assert sign.right < 7.6
            assert sign.top > 0.4
            assert sign.bottom < 10.75


def test_what_is_drawn_twice_is_stored_once():
    book = Book(LETTER, language="en")
    for _copy in range(30):
        draw_sheet(sheet_of(10), book)
    file = BytesIO()
    book.save(file)
    alone = len(drawn(sheet_of(10)).data)
    assert len(file.getvalue()) < alone + 30 * 1_000
    assert Printed(file.getvalue()).text.count("1. Each child") == 60 / 2
