"""Sheets for helpers: what they say, how they fit, and what they never say."""

from __future__ import annotations

from dataclasses import replace

import pytest

from outreach.documents import call_sheet, helper_note, job_card, night_before, sign_in_sheet
from outreach.page import measured, on_paper, paper
from partners.helpers.job_cards import ready_cards
from tests.outreach.helper_sheets import (
    CALLS,
    CARD,
    CROWD,
    EVERY,
    LONG_CARD,
    LONG_SIGN_IN,
    NIGHT,
    NOTE,
    SIGN_IN,
    card,
)
from tests.outreach.sheets import Printed

PAPERS = pytest.mark.parametrize("size", ["letter", "a4"])
JOBS = [ready.job for ready in ready_cards("en")]


def read(module, facts) -> Printed:
    return Printed(module.draw(facts))


@PAPERS
@pytest.mark.parametrize("language", ["en", "es"])
def test_every_ready_card_is_one_page_in_fourteen_points(language, size):
    for job in JOBS:
        facts = card(job, language, paper=size)
        arrangement = measured(job_card._sheet(on_paper(facts)), paper(size))
        assert (len(arrangement.pages), arrangement.look.size) == (1, 14)
        assert job_card.gaps(facts) == ()


def test_the_card_says_where_what_and_until_when():
    text = read(job_card, CARD).text
    for words in (
        "Hanging a show", "Tuesday, March 16, 2027, 1 p.m. to 2:30 p.m.", "Welcome to Millrace Elementary!",
        "Room 14, end of the left hall", "(201) 555-0101", "1. Find your panels", "7. Sweep up", "Stop at 2:30 p.m.",
        "two adults, one holds it", "Never be alone with a child",
    ):  # fmt: skip
        assert words in text


def test_what_is_empty_vanishes_with_its_label():
    bare = job_card.Facts("en", "letter", "Sorting", CARD.day, CARD.starts, CARD.ends, steps=("Sort.",))
    text = read(job_card, bare).text
    for words in ("Welcome", "Exits", "With", "Take care", "At the office"):
        assert words not in text
    codes = {gap.code for gap in job_card.gaps(bare)}
    assert {"no-room", "no-toilet", "no-exits", "no-call", "no-office", "no-allergies", "no-done"} <= codes


def test_a_card_of_too_many_words_says_so_and_loses_none():
    printed = read(job_card, LONG_CARD)
    assert {"second-page", "small-type"} <= {gap.code for gap in job_card.gaps(LONG_CARD)}
    assert "Step 6:" in printed.text
    assert "Stop at 2:30 p.m." in printed.pages[-1]
    assert "Take care" in printed.pages[-1]


def test_the_sign_in_sheet_names_who_comes_and_has_room_for_others():
    text = read(sign_in_sheet, SIGN_IN).text
    for words in ("Ana Prado", "Priya Natarajan", "Also came", "In", "Out", "Signature", "Sign in at the office"):
        assert words in text
    assert "555" not in text.replace("(201) 555-0110", "")


def test_thirty_names_go_on_with_the_headings_again():
    pages = read(sign_in_sheet, LONG_SIGN_IN).pages
    assert len(pages) > 1
    assert all("Name In Out Signature" in page for page in pages)
    joined = " ".join(pages)
    assert all(f"Villavicencio {number}" in joined for number in range(1, len(CROWD) + 1))


def flat_words(text):
    return " ".join(text.split())


def test_the_call_sheet_is_marked_as_the_teachers_own():
    text = read(call_sheet, CALLS).text
    for words in ("For the teacher only", "(201) 555-0141", "text message", "Spanish", "1 of 5 said yes.", "again"):
        assert words in text
    assert "cleared only until March 1, 2027: ask the office first" in flat_words(text)
    assert call_sheet.gaps(replace(CALLS, asked=(replace(CALLS.asked[0], phone="", email=""),)))[0].code == "no-way"


def test_after_the_session_nobody_is_reminded():
    assert [("remind" in read(call_sheet, replace(CALLS, over=over)).text) for over in (False, True)] == [True, False]


def test_the_night_before_fits_one_page_and_holds_everything():
    printed = read(night_before, NIGHT)
    assert len(printed.pages) == 1
    for words in (
        "Winter lights", "Thursday, March 18, 2027, 6 p.m.", "step ladder", "job cards and sign-in sheet",
        "nobody said yes yet", "1. Find your panels", "(201) 555-0141", "K-A: 17 works, 2 panels", "20 panels with 12",
    ):  # fmt: skip
        assert words in printed.text
    assert printed.text.count("plan of the panels") == 1


def test_fewer_than_two_where_ladders_are_used_is_told():
    assert "alone" in {gap.code for gap in night_before.gaps(NIGHT)}
    two = tuple(one for one in NIGHT.sessions if len(one.names) != 0)
    assert "alone" not in {gap.code for gap in night_before.gaps(replace(NIGHT, sessions=two))}


def test_the_note_tells_hours_and_what_for():
    text = read(helper_note, NOTE).text
    assert "Dear Ana Prado," in text
    assert "5.5 hours" in text
    assert "hanging “Winter lights”; cutting and trimming; sewing and kits at home." in text
    assert helper_note.gaps(NOTE) == ()


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("Your help was worth $180.", "value"),
        ("Su tiempo, 180 dólares, fue un regalo.", "value"),
        ("Please send more helpers.", "ask"),
    ],
)
def test_the_note_never_holds_a_value_or_an_ask(words, code):
    found = {gap.code: gap.stops for gap in helper_note.gaps(replace(NOTE, text=(words,)))}
    assert found[code] is True


@pytest.mark.parametrize("module", EVERY, ids=lambda module: module.SLUG)
@pytest.mark.parametrize("language", ["en", "es"])
def test_every_sheet_is_drawn_in_both_languages_with_its_own_fonts(module, language):
    plain, long = EVERY[module]
    for facts, size in ((plain, "letter"), (long, "a4")):
        printed = Printed(module.draw(replace(facts, language=language, paper=size)))
        assert all(printed.fonts().values())
        assert str(printed.reader.root_object["/Lang"]) == language
        width, height = (float(side) / 72 for side in printed.reader.pages[0].mediabox[2:])
        for number in range(min(3, len(printed.pages))):
            assert all(
                sign.left > 0.2 and sign.right < width - 0.2 and sign.bottom < height - 0.2
                for sign in printed.signs(number)
            )
    assert module.draw(plain) == module.draw(replace(plain))


def test_names_with_accents_and_signs_the_font_lacks_are_printed():
    """The facts are cleaned only where a text needs it, and must keep their shape."""
    ana = replace(CALLS.asked[0], name="Ana Peñalosa 🎨", phone="(201) 555-0141")
    assert "Ana Peñalosa" in read(call_sheet, replace(CALLS, asked=(ana,))).text
    coming = replace(NIGHT.sessions[0], names=("Tomás  Ferreira",))
    classes = (replace(NIGHT.classes[0], label="Ñ-1"),)
    text = read(night_before, replace(NIGHT, sessions=(coming,), classes=classes)).text
    assert "Tomás Ferreira" in text
    assert "Ñ-1: 17 works" in text
    assert "Zoë" in read(sign_in_sheet, replace(SIGN_IN, names=("Zoë",))).text
    assert "Señal" in read(job_card, replace(CARD, exits="Señal verde")).text
    assert "Querida" in read(helper_note, replace(NOTE, text=("Querida  Ñusta",))).text
