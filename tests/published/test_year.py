"""Figures of the year against published values, each with its source, and against the standard library."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from statistics import median as library_median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.helpers.figures import published_hour, worth_cents
from partners.year.figures import median, renewal_rate

GIVERS = st.lists(st.integers(0, 30))


def test_33_240_of_342_gave_again():
    # A published worked example of donor retention (trade journals).
    rate = renewal_rate(range(342), range(102, 400))
    assert rate == Fraction(240, 342)
    assert f"{float(rate):.1%}" == "70.2%"


@pytest.mark.parametrize(
    ("last_year", "this_year", "rate"),
    [
        ("ABCD", "BCEFG", Fraction(1, 2)),  # 34, by the definition
        ("", "AB", None),  # 35: undefined, not nought
        ("AABB", "BBB", Fraction(1, 2)),  # each giver counts once (R1)
        ("AB", "", Fraction(0)),
    ],
)
def test_34_and_35_by_definition(last_year, this_year, rate):
    assert renewal_rate(list(last_year), list(this_year)) == rate


@given(GIVERS, GIVERS)
def test_by_counting_one_after_the_other(last_year, this_year):
    before = dict.fromkeys(last_year)
    again = sum(1 for giver in before if giver in this_year)
    assert renewal_rate(last_year, this_year) == (Fraction(again, len(before)) if before else None)


@given(st.lists(st.integers(0, 400)))
def test_the_middle_is_that_of_the_standard_library(days):
    assert median(Counter(days)) == (Fraction(library_median(days)) if days else None)


def test_32_an_hour_of_2019():
    # Independent Sector, data year 2019: 27.20 an hour.
    hour = published_hour(2019)
    assert hour is not None
    assert worth_cents(750, hour) == 34_000
