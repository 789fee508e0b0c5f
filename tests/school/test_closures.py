"""Closures entered as ranges, the time between school years, federal holidays."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.school.closures import days_between, federal_holidays, gaps

DAYS = st.dates(date(2025, 1, 1), date(2028, 12, 31))
YEARS = st.lists(st.tuples(DAYS, st.integers(0, 300)).map(lambda y: (y[0], y[0] + timedelta(days=y[1]))), max_size=5)


def test_a_range_holds_both_its_ends():
    assert days_between(date(2026, 11, 25), date(2026, 11, 27)) == [date(2026, 11, d) for d in (25, 26, 27)]
    assert days_between(date(2026, 11, 25), date(2026, 11, 25)) == [date(2026, 11, 25)]


def test_a_range_the_wrong_way_round_is_refused():
    with pytest.raises(ValueError, match="before the first"):
        days_between(date(2026, 11, 27), date(2026, 11, 25))


def test_the_summer_between_two_years_is_closed():
    summer = gaps([(date(2027, 8, 30), date(2028, 6, 9)), (date(2026, 8, 31), date(2027, 6, 11))])
    assert (summer[0], summer[-1], len(summer)) == (date(2027, 6, 12), date(2027, 8, 29), 79)


@given(YEARS)
def test_gaps_are_the_days_in_no_year_between_the_first_and_the_last(years):
    known = {day for first, last in years for day in days_between(first, last)}
    span = days_between(min(known), max(known)) if known else []
    assert gaps(years) == [day for day in span if day not in known]


def test_a_year_that_ends_before_it_begins_is_refused():
    with pytest.raises(ValueError, match="ends before it begins"):
        gaps([(date(2027, 6, 11), date(2026, 8, 31))])


def test_holidays_of_several_years_come_once_each_in_order():
    days = [day for day, _name in federal_holidays([2027, 2026, 2027])]
    assert days == sorted(set(days))
    assert {day.year for day in days} == {2026, 2027}
