"""The days of a standing offer."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.promises.rhythm import day_of_turn, next_turn

FRIDAY = date(2026, 10, 9)
DAYS = st.dates(date(2020, 1, 1), date(2040, 12, 31))
EVERY = st.sampled_from(["week", "two_weeks", "month"])


def test_every_second_friday():
    assert [day_of_turn(FRIDAY, "two_weeks", n) for n in range(3)] == [FRIDAY, date(2026, 10, 23), date(2026, 11, 6)]


def test_months_are_clamped_from_the_first_day_not_from_the_last_one():
    days = [day_of_turn(date(2027, 1, 31), "month", n) for n in range(4)]
    assert days == [date(2027, 1, 31), date(2027, 2, 28), date(2027, 3, 31), date(2027, 4, 30)]


def test_once_has_no_rhythm():
    with pytest.raises(ValueError, match="Every"):
        day_of_turn(FRIDAY, "", 1)


def test_no_day_beyond_the_last_year():
    with pytest.raises(OverflowError):
        day_of_turn(date(9999, 12, 1), "month", 1)


@given(first=DAYS, every=EVERY, turn=st.integers(0, 60), after=DAYS)
def test_the_next_turn_is_the_first_one_later_found_by_walking(first, every, turn, after):
    walked = turn + 1
    while day_of_turn(first, every, walked) <= after:
        walked += 1
    assert next_turn(first, every, turn, after) == walked
