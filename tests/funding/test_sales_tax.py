"""Sales tax against fractions, and how a rate is typed."""

from decimal import Decimal
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.funding.sales_tax import SalesTaxError, parse_rate, percent, rate_words, tax_cents
from partners.funding.state_rules import state_code

AMOUNTS = st.lists(st.integers(0, 10_000_000), max_size=6)
RATES = st.integers(0, 300_000)


def by_the_third_decimal(cents: int, rate: Fraction) -> int:
    """As the rule reads: dollars carried to the third decimal, the rest cut off, up when that decimal is above four."""
    third = floor(Fraction(cents, 100) * rate / 100 * 1000)
    return third // 10 + (third % 10 > 4)


@given(AMOUNTS, RATES, st.booleans())
def test_it_is_the_rule_read_digit_by_digit(amounts, parts, per_item):
    rate = Fraction(parts, 10_000)
    wanted = (
        sum(by_the_third_decimal(cents, rate) for cents in amounts)
        if per_item
        else by_the_third_decimal(sum(amounts), rate)
    )
    assert tax_cents(amounts, percent(parts), per_item) == wanted


def test_a_rate_of_more_digits_than_are_typed_stays_exact():
    assert tax_cents([100], Decimal("1.4999999999999999999999999999")) == 1
    assert tax_cents([100], Decimal("1.5")) == 2


@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("6.875", 68750),
        ("6.875 %", 68750),
        (" 7%", 70000),
        (".5", 5000),
        ("0", 0),
        ("30", 300000),
        ("8.0000000", 80000),
    ],
)
def test_a_rate_is_read_as_typed(typed, parts):
    assert parse_rate(typed) == parts


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("600", "600% is no sales tax"), ("30.0001", "lies between 0 and 30"), ("-5", "-5% is no sales tax"),
        ("6.87505", "more than four digits"), ("six", "six is not a rate"), ("", "is not a rate"),
        ("6,875", "is not a rate"), ("1e3", "is not a rate"),
    ],
)  # fmt: skip
def test_what_is_no_rate_is_refused_in_words(typed, words):
    with pytest.raises(SalesTaxError, match=words):
        parse_rate(typed)


def test_a_rate_is_shown_without_blind_zeros_and_a_state_is_known_by_name_too():
    assert [rate_words(parts) for parts in (68750, 70000, 0, 300000)] == ["6.875%", "7%", "0%", "30%"]
    assert [state_code(text) for text in ("nj", "New  Jersey", "Jersey", "N.J.")] == ["NJ", "NJ", "", ""]
