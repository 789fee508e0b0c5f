"""Plain items: how many to ask for, and whether those that came last."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.exchanges.plain_items import Stock, plain_needed, undecorated


@given(st.integers(0, 5000), st.integers(0, 100))
def test_plain_items_are_rounded_up_exactly(items, percent):
    assert plain_needed(items, percent) == ceil(items * (1 + Fraction(percent, 100)))


def test_ten_in_a_hundred_to_spare():
    # Common practice, by hand: 250 and 25 more; 85 and 8.5 more.
    assert (plain_needed(250, 10), plain_needed(85, 10)) == (275, 94)


@pytest.mark.parametrize(
    ("made", "of"),
    [("decorated flower pots", "flower pots"), ("Hand-painted cake boxes", "cake boxes"), ("painted", ""),
     ("window painting", "")],
)  # fmt: skip
def test_what_decorated_items_are_made_of(made, of):
    assert undecorated(made) == of


def test_what_is_left_of_those_that_came():
    stock = Stock(came=275, done=120, spoiled=40, to_make=130)
    assert (stock.used, stock.left, stock.short_by) == (160, 115, 15)


def test_who_used_more_than_came_has_none_left():
    stock = Stock(came=10, done=12, spoiled=0, to_make=3)
    assert (stock.left, stock.short_by) == (0, 3)


@given(*[st.integers(0, 500)] * 3, st.data())
def test_every_plain_item_that_came_is_used_back_or_left(done, spoiled, back, data):
    came = data.draw(st.integers(done + spoiled + back, 2000))
    stock = Stock(came=came, done=done, spoiled=spoiled, to_make=0, back=back)
    assert stock.used + stock.back + stock.left == came
    assert Stock(came=came, done=done, spoiled=spoiled, to_make=0, back=back + stock.left + 1).left == 0
