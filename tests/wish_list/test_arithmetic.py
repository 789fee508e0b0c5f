"""Need arithmetic, against hand-worked examples (common practice) and exact fractions."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.wish_list.arithmetic import Still, needed, still_needed

COUNTS = st.integers(0, 5000)


@pytest.mark.parametrize(
    ("students", "hundredths", "spare", "expected"),
    [
        (96, 100, 10, 106),  # worked by hand: 96 × 1.1 = 105.6
        (24, 50, 0, 12),  # one for two
        (25, 50, 0, 13),  # 12.5 is 13 whole ones
        (92, 100, 5, 97),  # 96.6
        (0, 100, 10, 0),
    ],
)
def test_needed_matches_what_is_worked_by_hand(students: int, hundredths: int, spare: int, expected: int) -> None:
    assert needed(students, hundredths, spare) == expected


@given(COUNTS, st.integers(0, 1000), st.integers(0, 100))
def test_needed_is_the_exact_ceiling(students: int, hundredths: int, spare: int) -> None:
    exact = students * Fraction(hundredths, 100) * (1 + Fraction(spare, 100))
    assert needed(students, hundredths, spare) == ceil(exact)


def test_what_is_still_needed_comes_in_whole_packs_with_cost() -> None:
    # Worked by hand: 72 wanted, 10 on hand, 5 promised, 9 came: 48 missing; packs of 25 at 11.99: 2 packs, 50 pieces.
    still = still_needed(72, on_hand=10, promised=5, received=9, pack_size=25, pack_cents=1199)
    assert still == Still(pieces=50, packs=2, cents=2398)


@given(COUNTS, COUNTS, COUNTS, COUNTS, st.integers(1, 200))
def test_still_needed_is_enough_and_less_than_one_pack_too_many(
    wanted: int, on_hand: int, promised: int, received: int, pack: int
) -> None:
    missing = max(0, wanted - on_hand - promised - received)
    still = still_needed(wanted, on_hand=on_hand, promised=promised, received=received, pack_size=pack)
    assert missing <= still.pieces < missing + pack
    assert still.pieces == still.packs * pack


def test_a_pack_without_anything_in_it_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        still_needed(5, pack_size=0)


def test_less_than_no_students_is_refused() -> None:
    with pytest.raises(ValueError, match="below zero"):
        needed(-1)
