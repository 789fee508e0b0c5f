"""The gratitude letter as the giver gets it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from outreach.documents import gratitude_letter
from outreach.page import Address
from tests.outreach.sheets import (
    FORMS,
    LETTER,
    LONG_LETTER,
    LONG_NAME,
    LONG_PERSON,
    SCHOOL,
    forty,
    letter,
    logo,
    thanking,
)


def codes(facts, **more):
    return [gap.code for gap in gratitude_letter.gaps(facts, **more)]


@pytest.mark.parametrize(
    "words",
    [
        "Millrace Elementary",
        "March 5, 2027",
        "Dana Whitlock Riverbend Garden Center 210 RIVER RD STE 4 ALDER FALLS OR 97000-1234",
        "Dear Dana Whitlock and everyone at Riverbend Garden Center,",
        "120 terracotta pots (4 inch) and 6 bags of potting soil",
        "Your gift reaches 104 students.",
        "With thanks, June Castellanos Art teacher, Millrace Elementary",
        "Enclosed: a card from class 3B",
        "Alder Falls School District, EIN 00-0000000.",
        "Receipts are issued by the district business office.",
        "This letter is not tax advice",
    ],
)
def test_each_part_of_the_letter_is_there(words):
    assert words in letter(LETTER).text


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("form", FORMS)
def test_every_form_is_one_page_in_both_languages_and_papers(form, language, paper):
    facts = replace(thanking(form=form, language=language, **FORMS[form]), paper=paper)
    assert len(letter(facts).pages) == 1


def test_the_longest_names_stay_on_one_page():
    pages = letter(LONG_LETTER).pages
    assert len(pages) == 1
    assert LONG_NAME in pages[0]
    assert LONG_PERSON in pages[0]


def test_forty_things_go_on_to_a_second_page_each_once():
    pages = letter(forty()).pages
    assert len(pages) == 2
    assert "page 1 of 2" in pages[0]
    assert pages[1].startswith("To Riverbend Garden Center, March 5, 2027")
    assert "page 2 of 2" in pages[1]
    assert all(sum(f"colour {number} " in f"{page} " for page in pages) == 1 for number in range(1, 41))


def test_there_is_room_to_sign_by_hand():
    """Half an inch at least between the closing words and the name."""
    signs = letter(LETTER).signs()
    read = "".join(sign.sign for sign in signs)
    closing, name = (signs[read.index(words)] for words in ("Withthanks,", "JuneCastellanosArt"))
    assert name.top - closing.bottom > 0.5


def test_a_picture_of_the_signature_takes_that_room():
    with_picture, without = letter(replace(LETTER, signature=logo())), letter(LETTER)
    assert [sign.top for sign in with_picture.signs()] == [sign.top for sign in without.signs()]


def test_without_an_address_the_space_closes_and_nothing_is_folded():
    facts = replace(LETTER, address=Address())
    dear = next(sign for sign in letter(facts).signs() if sign.sign == "D")
    assert dear.top < 2.5


def test_a_letter_for_help_has_no_records_and_no_number():
    text = letter(thanking(form="service", **FORMS["service"])).text
    assert "For your records" not in text
    assert "EIN" not in text


def test_edited_words_are_printed_instead_of_ours():
    text = letter(replace(LETTER, paragraphs=("You came in the rain on March 4, 2027.",))).text
    assert "You came in the rain" in text
    assert "Each child painted" not in text


def test_markup_in_names_is_printed_as_it_is():
    name = '<b>Fern</b> <img src="/etc/hostname"> &amp;'
    assert f"everyone at {name}," in letter(thanking(partner=name)).text


def test_a_draft_says_so():
    assert "DRAFT" in letter(replace(LETTER, draft=True)).text


def test_a_complete_letter_has_no_gaps():
    assert codes(LETTER) == []


@pytest.mark.parametrize(
    ("facts", "code"),
    [
        (replace(LETTER, address=Address()), "no-address"),
        (replace(LETTER, address=replace(LETTER.address, street=("W" * 200,))), "address-too-long"),
        (thanking(contact=""), "no-contact"),
        (thanking(items=()), "nothing-given"),
        (thanking(becomes=""), "no-becomes"),
        (thanking(students=None), "no-students"),
        (thanking(receiver=""), "no-receiver"),
        (thanking(form="money", items=(), amount_cents=10_000, back="a ticket"), "no-estimate"),
        (replace(LETTER, teacher=""), "no-teacher"),
        (forty(), "second-page"),
        (thanking(partner="Bluebird 🥐 Bakery"), "unprintable"),
    ],
)
def test_what_is_missing_is_told_and_does_not_stop(facts, code):
    found = {gap.code: gap for gap in gratitude_letter.gaps(facts)}
    assert not found[code].stops


@pytest.mark.parametrize(
    ("facts", "code"),
    [
        (replace(LETTER, paragraphs=("Thank you for pots worth $300 on March 4, 2027.",)), "value"),
        (thanking(own_words="Could you also give us soil?"), "ask"),
        (thanking(part_of_trade=True, back="cards", own_words="You got nothing in return."), "nothing-on-trade"),
        (thanking(for_named_person=True), "named-person"),
    ],
)
def test_what_no_letter_may_say_stops_it_with_the_reason(facts, code):
    found = {gap.code: gap for gap in gratitude_letter.gaps(facts)}
    assert found[code].stops
    assert str(found[code].words)


def test_a_purpose_that_names_somebody_is_asked_about_while_it_is_in_the_letter():
    facts = thanking(purpose="a brush for Emma Torres")
    assert "purpose-names" in codes(facts)
    assert "purpose-names" not in codes(replace(facts, paragraphs=("Thank you for the brush.",)))
    assert "purpose-names" not in codes(thanking(purpose="the wall at Riverbend"))


def test_another_giver_in_the_letter_stops_it():
    facts = thanking(own_words="Tamarack Hardware helped too.")
    assert "other-giver" in codes(facts, other_givers=("Tamarack Hardware",))


def test_the_letterhead_of_a_school_without_address_has_no_loose_dots():
    printed = letter(replace(LETTER, letterhead=replace(SCHOOL, address=("", "12 Mill Street"), phone="")))
    assert "Millrace Elementary 12 Mill Street March 5, 2027" in printed.text
