"""The leave-behind sheet as the shop sees it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from outreach.documents import leave_behind
from outreach.page import LETTER
from outreach.page.sheet import measured
from outreach.wording.counts import Item
from tests.outreach.sheets import BARE, GENERIC, LONG_NAME, LONG_SHEET, SHEET, sheet


def codes(facts):
    return [gap.code for gap in leave_behind.gaps(facts)]


@pytest.mark.parametrize(
    "words",
    [
        "Millrace Elementary",
        "October 6, 2026",
        "June Castellanos, art teacher",
        "(201) 555-0123",
        "june.castellanos@example.org",
        "604 students, kindergarten to grade 5",
        "120 terracotta pots",
        "4 inch, seconds welcome",
        "60 terracotta pots",
        "grows basil in it. For 104 students, by May 14, 2027.",
        "Friday, March 5, 2027. We will come and collect.",
        "A window display decorated",
        "herb gardens with 76 students",
        "please ask your tax adviser",
        "Approved by Maria Ortega, principal, on September 14, 2026.",
        "Maybe, call me on",
        "Not this year",
        "Please don’t ask again",
        "May we name you? Yes No",
        "Tuesday, October 20, 2026",
    ],
)
def test_each_of_the_eleven_elements_is_on_the_sheet(words):
    assert words in sheet(SHEET).text


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("facts", [SHEET, GENERIC, BARE, LONG_SHEET])
def test_it_is_one_side(facts, paper):
    assert len(sheet(replace(facts, paper=paper)).pages) == 1


@pytest.mark.parametrize(
    "facts", [SHEET, GENERIC, replace(SHEET, partner=LONG_NAME), replace(SHEET, contact=LONG_NAME)]
)
def test_its_type_is_twelve_to_fourteen_points(facts):
    assert 12 <= measured(leave_behind._sheet(facts), LETTER).look.size <= 14


def test_it_is_read_in_half_a_minute():
    """Silent reading of non-fiction in English, 238 words a minute (Brysbaert 2019, value from memory): 119 words."""
    message = sheet(SHEET).text.split("October 6, 2026")[1].split("Reply to")[0].split("example.org")[1]
    assert len(message.split()) <= 119
    assert len(message.split()) == leave_behind.words_to_read(SHEET)


def test_it_works_without_a_partners_name():
    text = sheet(GENERIC).text
    assert "A request from our art room" in text
    assert "Last year" not in text


@pytest.mark.parametrize("facts", [SHEET, GENERIC, BARE, LONG_SHEET, replace(SHEET, language="es")])
def test_it_never_prints_what_is_not_there(facts):
    text = sheet(facts).text
    assert not any(word in text for word in ("N/A", "None", " ,", "..", "()", ": .", "1 students", "{", "}"))


def test_a_bare_sheet_has_no_empty_heading():
    text = sheet(BARE).text
    labels = (
        "What it becomes",
        "Who it is for",
        "Needed by",
        "In return",
        "Last year",
        "I will be back",
        "We are asking for",
        "Approved",
    )
    assert not any(label in text for label in (*labels, "Collecting", "School contact"))


def test_one_student_is_one_student():
    text = sheet(replace(SHEET, students=1, becomes_students=1)).text
    assert "teaches one student, kindergarten" in text
    assert "For one student, by" in text


def test_where_nobody_knows_what_it_becomes_it_says_for_whom():
    text = sheet(replace(SHEET, becomes="", becomes_students=23)).text
    assert "Who it is for" in text
    assert "23 students." in text
    assert "What it becomes" not in text


def test_names_with_markup_are_printed_as_they_are():
    name = '<b>Fern</b> & "Sons" <img src="/etc/passwd"> &amp; (1\\2)'
    text = sheet(replace(SHEET, partner=name, contact="Renée O’Brien", teacher="Nguyễn Thị Hường")).text
    assert name in text
    assert "Renée O’Brien" in text
    assert "Nguyễn Thị Hường" in text


def test_the_spanish_sheet_is_spanish_throughout():
    spanish = replace(SHEET, language="es", grades="de kínder a quinto grado")
    text = sheet(spanish).text
    assert "Una petición para Riverbend Garden Center" in text
    assert "Martes, 20 de octubre de 2026" in text
    assert not any(word in text for word in ("Needed", "Yes", "Reply", "Approved", "October", "students, k"))


def test_a_sheet_not_yet_approved_says_draft():
    assert "DRAFT" in sheet(replace(SHEET, draft=True)).text
    assert "BORRADOR" in sheet(replace(SHEET, draft=True, language="es")).text
    assert "DRAFT" not in sheet(SHEET).text


def test_a_complete_sheet_has_no_gaps():
    assert codes(SHEET) == []


def test_a_bare_sheet_lists_what_is_missing_in_reading_order():
    assert codes(BARE) == [
        "no-contact",
        "no-program",
        "no-ask",
        "no-smaller",
        "no-becomes",
        "no-needed-by",
        "no-offer",
        "no-tax-line",
        "no-approval",
        "no-return-day",
    ]


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"last_year": "Your gift worth $300 made a mural"}, "amount"),
        ({"offer_back": "Just a card"}, "just"),
        ({"becomes": "Art that raises test scores"}, "scores"),
        ({"partner": "Bluebird 🥐 Bakery"}, "unprintable"),
        ({"last_year": "Your 80 pots went home as herb gardens. " * 4}, "long-read"),
        ({"becomes": "word " * 900}, "second-page"),
    ],
)
def test_what_a_sheet_should_not_say_is_told(changes, code):
    assert code in codes(replace(SHEET, **changes))


def test_signs_that_cannot_be_printed_are_named():
    gap = next(gap for gap in leave_behind.gaps(replace(SHEET, partner="Bluebird 🥐 Bakery")) if gap.field == "partner")
    assert "🥐" in str(gap.words)
    assert "A request to Bluebird Bakery" in sheet(replace(SHEET, partner="Bluebird 🥐 Bakery")).text


def test_several_asks_stand_under_each_other():
    text = sheet(replace(SHEET, asks=(Item("ribbon", 1, "rolls"), Item("old frames", 12, kind="any size")))).text
    assert "1 roll of ribbon 12 old frames, any size" in text


def test_forty_asks_go_on_properly():
    many = tuple(Item(f"sheets of paper in colour {number}", 10, kind="A3") for number in range(1, 41))
    pages = sheet(replace(SHEET, asks=many)).pages
    assert len(pages) > 1
    assert all(sum(f"colour {number}, A3" in page for page in pages) == 1 for number in range(1, 41))
