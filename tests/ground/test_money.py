from decimal import Decimal
from importlib import import_module

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.money import MOST_CENTS, MoneyError, format_cents, parse_cents


@pytest.mark.parametrize(
    ("typed", "cents"),
    [
        ("1,234.50", 123450),
        ("12", 1200),
        (" 12.5 ", 1250),
        (".05", 5),
        ("$12", 1200),
        ("$ 1,000,000", 100_000_000),
        ("0.10", 10),
        ("1.15", 115),
    ],
)
def test_amounts_are_read_to_the_cent(typed: str, cents: int) -> None:
    assert parse_cents(typed) == cents


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("", "empty"),
        ("  ", "empty"),
        ("-5", "negative"),
        ("−5", "negative"),
        ("(5.00)", "negative"),
        ("12,5", "ambiguous"),
        ("12,50", "ambiguous"),
        ("1.234,50", "ambiguous"),
        ("1,23,456", "ambiguous"),
        ("0,123", "ambiguous"),
        ("12.345", "decimals"),
        ("１２", "digits"),
        ("٣", "digits"),
        ("99999999999", "absurd"),
        ("10,000,000.01", "absurd"),
        ("$", "not_money"),
        (".", "not_money"),
        ("12.", "not_money"),
        ("1e3", "not_money"),
        ("1 234", "not_money"),
        ("twelve", "not_money"),
        ("12 dollars", "not_money"),
        ("nan", "not_money"),
        ("12\n13", "not_money"),
    ],
)
def test_everything_else_is_refused_with_its_reason(typed: str, code: str) -> None:
    with pytest.raises(MoneyError) as refused:
        parse_cents(typed)
    assert refused.value.code == code
    assert str(refused.value).endswith((".", "?"))


def test_the_refusal_repeats_what_was_typed() -> None:
    with pytest.raises(MoneyError, match=r"12,5 can be read in two ways"):
        parse_cents("12,5")


def test_a_percent_sign_in_what_was_typed_does_not_break_the_sentence() -> None:
    with pytest.raises(MoneyError, match=r"10% is not an amount"):
        parse_cents("10%")


@given(st.integers(min_value=0, max_value=MOST_CENTS))
def test_what_is_formatted_is_read_back(cents: int) -> None:
    assert parse_cents(format_cents(cents)) == cents


@given(st.text(max_size=20))
def test_any_text_is_an_amount_or_a_refusal(typed: str) -> None:
    try:
        cents = parse_cents(typed)
    except MoneyError:
        return
    assert cents == Decimal(typed.strip().removeprefix("$").replace(",", "").strip()) * 100


@pytest.mark.parametrize("language", ["en-us", "en", "es-pr", "es", "xx"])
def test_amounts_are_written_the_american_way(language: str) -> None:
    assert format_cents(123450, language) == "$1,234.50"
    assert format_cents(-5, language) == "-$0.05"
    assert format_cents(0, language) == "$0.00"


def test_signs_agree_with_the_formats_of_puerto_rico() -> None:
    formats = import_module("django.conf.locale.es_PR.formats")
    assert format_cents(123456789, "es-pr") == f"$1{formats.THOUSAND_SEPARATOR}234{formats.THOUSAND_SEPARATOR}567" + (
        f"{formats.DECIMAL_SEPARATOR}89"
    )
