"""Hints on quiet times, and Mother's Day and holidays against python-dateutil and fixed dates."""

from datetime import date, time, timedelta

import pytest
from dateutil.relativedelta import SU, relativedelta
from hypothesis import given
from hypothesis import strategies as st

from partners.asking.quiet import BEST_TIMES, HINTS, Busy, avoid, best_days, mothers_day, next_good_day
from partners.school.calendar import SchoolCalendar

TUESDAY = date(2026, 10, 6)
DAYS = st.dates(date(2024, 1, 1), date(2035, 12, 31))


@pytest.mark.parametrize(
    ("kind", "first", "last", "code"),
    [
        ("restaurant", time(11), time(13, 59), "lunch"),
        ("restaurant", time(17), time(19, 59), "dinner"),
        ("coffee_shop", time(6, 30), time(9, 29), "morning_rush"),
        ("grocer", time(16), time(18, 59), "after_work"),
    ],
)
def test_the_rush_begins_and_ends_to_the_minute(kind, first, last, code):
    def shifted(at, minutes):
        return time((at.hour * 60 + at.minute + minutes) // 60, (at.minute + minutes) % 60)

    assert avoid(kind, TUESDAY, first) == avoid(kind, TUESDAY, last) == [code]
    assert avoid(kind, TUESDAY, shifted(first, -1)) == avoid(kind, TUESDAY, shifted(last, 1)) == []


@pytest.mark.parametrize(
    ("kind", "outside", "first", "last", "after", "code"),
    [
        ("retail", (2026, 11, 14), (2026, 11, 15), (2027, 1, 2), (2027, 1, 3), "holiday_season"),
        ("accountant", (2027, 1, 14), (2027, 1, 15), (2027, 4, 15), (2027, 4, 16), "tax_season"),
        ("frame_shop", (2026, 10, 31), (2026, 11, 1), (2026, 12, 31), (2027, 1, 1), "framing_season"),
        ("florist", (2027, 2, 7), (2027, 2, 8), (2027, 2, 14), (2027, 2, 15), "flower_week"),
        ("florist", (2027, 5, 2), (2027, 5, 3), (2027, 5, 9), (2027, 5, 10), "flower_week"),
        ("grocer", (2026, 11, 23), (2026, 11, 24), (2026, 11, 25), (2026, 11, 26), "before_holiday"),
    ],
)
def test_a_season_holds_on_both_its_ends(kind, outside, first, last, after, code):
    assert avoid(kind, date(*first)) == avoid(kind, date(*last)) == [code]
    assert avoid(kind, date(*outside)) == avoid(kind, date(*after)) == []


def test_spring_saturdays_are_busy_for_hardware_and_gardens():
    for kind in ("hardware", "garden"):
        assert avoid(kind, date(2027, 4, 10)) == ["spring_saturday"]
        assert avoid(kind, date(2027, 4, 9)) == avoid(kind, date(2026, 10, 10)) == []


def test_banks_are_busy_on_friday_afternoons_and_on_the_first():
    friday = date(2026, 10, 9)
    assert avoid("bank", friday, time(12)) == ["friday_afternoon"]
    assert avoid("bank", friday, time(11, 59)) == avoid("bank", friday) == []
    assert avoid("bank", date(2026, 10, 1), time(10)) == ["first_of_month"]


def test_the_days_before_new_year_belong_to_the_next_year_too():
    assert avoid("grocer", date(2026, 12, 30)) == ["before_holiday"]


@given(st.integers(1950, 2100))
def test_mothers_day_is_the_second_sunday_of_may(year):
    assert mothers_day(year) == date(year, 5, 1) + relativedelta(weekday=SU(2))


def test_an_unknown_kind_has_no_hints():
    assert avoid("", TUESDAY, time(12)) == []


def test_the_program_can_set_its_own_hints():
    hints = {"printer": (Busy("election_weeks", lambda day: day.month == 10),)}
    assert avoid("printer", TUESDAY, hints=hints) == ["election_weeks"]


@given(st.sampled_from(sorted(HINTS)), DAYS, st.integers(0, 60))
def test_best_days_are_in_midweek_and_quiet_at_the_best_times(kind, start, days):
    found = best_days(kind, start, days)
    stretch = [start + timedelta(days=n) for n in range(days)]
    assert found == [d for d in stretch if d.isoweekday() in (2, 3, 4) and not avoid(kind, d)]
    assert not any(avoid(kind, day, begin) for day in found for begin, _end in BEST_TIMES)


def test_the_next_good_day_waits_for_the_season_to_end_and_for_school():
    assert next_good_day("retail", date(2026, 11, 20)) == date(2027, 1, 5)
    assert next_good_day("retail", date(2026, 11, 20), SchoolCalendar([date(2027, 1, 5)])) == date(2027, 1, 6)
    assert next_good_day("retail", date(2026, 11, 20), within=20) is None
