"""Numbers and days in words, against Django's own formats for the two languages."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.utils import formats, translation

from outreach.wording.caution import claims_scores, says_just
from outreach.wording.counts import Item, counted, dollars, is_less, joined, number, sentence, students, with_kind
from outreach.wording.dates import spelled, with_weekday

DAYS = [date(2026, 1, 1) + timedelta(days=step) for step in range(0, 365, 13)]


@pytest.mark.parametrize("day", DAYS)
def test_days_are_spelled_as_djangos_us_and_puerto_rican_formats_do(day):
    """django.conf.locale: "N j, Y" with the full month for en_US, "j de F de Y" for es_PR."""
    with translation.override("en-us"):
        assert spelled(day, "en") == formats.date_format(day, "F j, Y")
        assert with_weekday(day, "en") == formats.date_format(day, "l, F j, Y")
    with translation.override("es-pr"):
        assert spelled(day, "es") == formats.date_format(day, "DATE_FORMAT").lower()
        assert with_weekday(day, "es") == formats.date_format(day, r"l, j \d\e F \d\e Y").lower()


@pytest.mark.parametrize("cents", [0, 5, 99, 100, 123_456, 100_000_000])
def test_money_is_written_as_both_languages_write_it_in_the_us(cents):
    """django.conf.locale.es_PR: "." for decimals, "," for thousands, as in English."""
    for language in ("en-us", "es-pr"):
        with translation.override(language):
            written = formats.number_format(Decimal(cents) / 100, 2, use_l10n=True, force_grouping=True)
            assert dollars(cents) == f"${written}"


@pytest.mark.parametrize(
    ("value", "text"),
    [(7, "7"), (1_200, "1,200"), (Decimal("2.50"), "2.5"), (Decimal("100"), "100"), (Decimal("0.25"), "0.25")],
)
def test_numbers_lose_only_needless_zeros(value, text):
    assert number(value) == text


@pytest.mark.parametrize(
    ("item", "language", "text"),
    [
        (Item("terracotta pots", 120), "en", "120 terracotta pots"),
        (Item("terracotta pots", 1), "en", "terracotta pots: 1"),
        (Item("step ladder", 1), "en", "1 step ladder"),
        (Item("canvas", 1), "en", "canvas: 1"),
        (Item("glass", 1), "en", "1 glass"),
        (Item("ribbon", 12, "rolls"), "en", "12 rolls of ribbon"),
        (Item("ribbon", 1, "rolls"), "en", "1 roll of ribbon"),
        (Item("ribbon", 12, "roll"), "en", "12 rolls of ribbon"),
        (Item("felt", 1, "crates"), "en", "felt (crates: 1)"),
        (Item("felt", Decimal("2.5"), "yard"), "en", "2.5 yards of felt"),
        (Item("cinta", 1, "rollos"), "es", "1 rollo de cinta"),
        (Item("cinta", 12, "rollo"), "es", "12 rollos de cinta"),
        (Item("macetas", 1), "es", "macetas: 1"),
        (Item("paint"), "en", "paint"),
        (Item("paint", 0), "en", "paint"),
        (Item("", 12, "rolls"), "en", ""),
    ],
)
def test_one_is_never_written_with_a_plural(item, language, text):
    assert counted(item, language) == text


def test_a_kind_without_a_thing_is_not_written():
    assert with_kind(Item("", 3, kind="4 inch"), "en") == ""


@pytest.mark.parametrize(
    ("parts", "language", "text"),
    [
        ([], "en", ""),
        (["wire"], "en", "wire"),
        (["wire", "felt"], "en", "wire and felt"),
        (["wire", "felt", "yarn"], "en", "wire, felt and yarn"),
        (["pots, tall", "wire", "felt"], "en", "pots, tall; wire; and felt"),
        (["pots (tall, red)", "wire"], "en", "pots (tall, red) and wire"),
        (["tela", "hilo"], "es", "tela e hilo"),
        (["tela", "hierro"], "es", "tela y hierro"),
        (["tela", "lana"], "es", "tela y lana"),
    ],
)
def test_lists_read_as_a_sentence(parts, language, text):
    """Spanish "y" turns to "e" before the sound i, not before hie- (Real Academia Española, usage guide)."""
    assert joined(parts, language) == text


def test_one_student_is_written_out():
    assert [students(count, "en") for count in (1, 2, 1_604)] == ["one student", "2 students", "1,604 students"]
    assert [students(count, "es") for count in (1, 2)] == ["un estudiante", "2 estudiantes"]


@pytest.mark.parametrize(
    ("typed", "printed"), [("It grew", "It grew."), ("It grew!", "It grew!"), (" It grew. ", "It grew."), ("", "")]
)
def test_a_sentence_ends_once(typed, printed):
    assert sentence(typed) == printed


def test_belittling_words_and_claims_are_found():
    assert says_just("Just a few pots")
    assert not says_just("adjustable, justice")
    assert claims_scores("it raises test scores")
    assert not claims_scores("a test of glue")


@pytest.mark.parametrize(
    ("words", "less"),
    [
        ("50 boxes", False), ("10 boxes, any size", True), ("17", False), ("1,200 boxes", False),
        ("half as many", True), ("40 sheets", True), ("1 roll", True), ("", True),
    ],
)  # fmt: skip
def test_a_smaller_alternative_is_less_than_what_is_asked_for(words: str, less: bool) -> None:
    assert is_less(words, Item("cake boxes", 17, "boxes")) is less
    assert is_less(words, Item("cake boxes"))
