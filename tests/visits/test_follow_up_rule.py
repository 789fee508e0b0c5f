from datetime import date, timedelta

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from partners.school.calendar import SchoolCalendar
from partners.visits.follow_up_rule import (
    FollowUpFigures,
    after_no,
    first_follow_up,
    last_follow_up,
    rest_after_gift,
    rest_after_silence,
)

VISIT = date(2026, 10, 6)
CALENDAR = SchoolCalendar([date(2026, 10, 13), date(2026, 10, 28)])
DAYS = st.dates(date(2024, 1, 1), date(2032, 12, 31))


def test_the_first_follow_up_is_a_week_after_the_visit_moved_on_over_a_closed_day():
    # Worked example of the project's own rule: 13 October 2026 is closed.
    assert first_follow_up(VISIT, CALENDAR) == date(2026, 10, 14)


def test_the_day_they_named_wins_and_is_moved_on_too():
    assert first_follow_up(VISIT, CALENDAR, named_day=date(2026, 10, 8)) == date(2026, 10, 8)
    assert first_follow_up(VISIT, CALENDAR, named_day=date(2026, 10, 10)) == date(2026, 10, 12)


def test_a_named_day_on_or_before_the_visit_is_refused():
    with pytest.raises(ValueError, match="after the visit"):
        first_follow_up(VISIT, CALENDAR, named_day=VISIT)


def test_the_last_follow_up_is_two_weeks_after_the_first_was_done():
    assert last_follow_up(date(2026, 10, 14), CALENDAR) == date(2026, 10, 29)


def test_the_figures_can_be_set():
    figures = FollowUpFigures(first_days=10, last_days=5, months_after_gift=6)
    assert first_follow_up(VISIT, SchoolCalendar(), figures=figures) == date(2026, 10, 16)
    assert last_follow_up(date(2026, 10, 14), SchoolCalendar(), figures) == date(2026, 10, 19)
    assert rest_after_gift(VISIT, figures) == date(2027, 4, 6)


def test_silence_rests_until_the_first_of_the_same_month_next_year():
    assert rest_after_silence(VISIT) == date(2027, 10, 1)


def test_a_no_rests_likewise_and_asks_four_to_six_weeks_earlier_next_year():
    next_time = after_no(VISIT)
    assert next_time.rest_until == date(2027, 10, 1)
    assert (next_time.ask_from, next_time.ask_by) == (date(2027, 8, 25), date(2027, 9, 8))


def test_after_a_gift_a_year_passes():
    assert rest_after_gift(date(2028, 2, 29)) == date(2029, 2, 28)


@given(DAYS)
def test_rests_and_windows_agree_with_relativedelta(day):
    next_time, anniversary = after_no(day), day + relativedelta(years=1)
    assert rest_after_silence(day) == next_time.rest_until == day + relativedelta(years=1, day=1)
    assert next_time.ask_from == anniversary - relativedelta(weeks=6)
    assert next_time.ask_by == anniversary - relativedelta(weeks=4)
    assert rest_after_gift(day) == day + relativedelta(months=12)


@given(DAYS, st.sets(st.integers(0, 60), max_size=30))
def test_a_follow_up_is_never_early_and_never_on_a_day_without_school(day, offsets):
    calendar = SchoolCalendar([day + timedelta(days=n) for n in offsets])
    for due, least in ((first_follow_up(day, calendar), 7), (last_follow_up(day, calendar), 14)):
        assert calendar.is_school_day(due)
        assert not any(calendar.is_school_day(day + timedelta(days=n)) for n in range(least, (due - day).days))
        assert due >= day + timedelta(days=least)
