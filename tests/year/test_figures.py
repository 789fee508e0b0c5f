"""The pure figures of the year, and where the marks of its pictures stand."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.year.charts import GAP, WIDE, lying, share, strip
from partners.year.figures import both_sides, fate, yes_rates

CAME, NEVER, OPEN = "came", "never_came", ""
COUNTS = st.lists(st.integers(0, 500), min_size=1, max_size=5)


@pytest.mark.parametrize(
    ("parts", "ended"),
    [
        ([("us", CAME), ("them", "that_was_all")], "kept"),
        ([("us", CAME), ("them", NEVER)], "ours"),
        ([("us", NEVER), ("them", CAME)], "theirs"),
        ([("us", NEVER), ("them", NEVER)], "broken"),
        ([("us", CAME), ("them", CAME), ("them", OPEN)], "open"),
        ([("us", CAME), ("them", CAME), ("them", NEVER)], "ours"),
    ],
)
def test_a_trade_is_kept_only_when_both_sides_did_all_of_it(parts, ended):
    assert fate(parts) == ended


def test_every_trade_counts_once():
    told = both_sides([(1, "us", CAME), (1, "them", CAME), (2, "us", CAME), (2, "them", OPEN)])
    assert (told.kept, told.open, told.all) == (1, 1, 2)


def test_a_rate_of_fewer_than_five_asks_is_not_told_and_waiting_ones_do_not_count():
    found = yes_rates(
        [
            *(("garden", "yes", 2), ("garden", "some", 1), ("garden", "no", 1), ("garden", "no_reply", 1)),
            *(("bank", "yes", 4), ("bank", "waiting", 9)),
        ]
    )
    assert [(one.kind, one.asks, one.rate) for one in found] == [("garden", 5, Fraction(3, 5)), ("bank", 4, None)]


@given(COUNTS)
def test_the_parts_of_a_bar_fill_it_in_the_proportion_of_their_numbers(counts):
    parts = lying([(str(place), count) for place, count in enumerate(counts)])
    assert [part.number for part in parts] == [count for count in counts if count]
    if parts:
        filled = sum(part.wide for part in parts) + GAP * (len(parts) - 1)
        assert filled == pytest.approx(WIDE, abs=0.1 * len(parts))
        room = WIDE - GAP * (len(parts) - 1)
        assert all(part.wide == pytest.approx(room * part.number / sum(counts), abs=0.06) for part in parts)


@given(st.lists(st.integers(0, 10_000), min_size=12, max_size=12))
def test_marks_stand_on_the_floor_within_their_row_as_high_as_their_number(numbers):
    (row,) = strip([("Asks", numbers)], [""] * 12).rows
    assert [mark.number for mark in row.marks] == [number for number in numbers if number]
    assert all(mark.top + mark.high == row.floor and mark.above > row.name_at for mark in row.marks)
    in_order = sorted(row.marks, key=lambda mark: mark.number)
    assert all(one.high <= other.high for one, other in pairwise(in_order))


def test_more_than_was_promised_is_drawn_as_all_of_it():
    assert (share(30, 20, 100), share(5, 20, 100), share(1, 0)) == (100, 25, 0)
