"""School days against python-dateutil's recurrence sets and against a day-by-day walk."""

import doctest
from datetime import date, datetime, time, timedelta
from itertools import islice

import pytest
from dateutil.rrule import DAILY, rrule, rruleset
from hypothesis import given
from hypothesis import strategies as st

from partners.school import days_ahead
from partners.school.calendar import REACH_DAYS, NoSchoolDay, SchoolCalendar, together
from partners.school.closures import days_between

DAYS = st.dates(date(2026, 1, 1), date(2027, 12, 31))
WEEKDAYS = st.sets(st.integers(0, 6), min_size=1)
SINGLE = st.sets(DAYS, max_size=30)
BREAKS = st.tuples(DAYS, st.integers(0, 120)).map(lambda b: days_between(b[0], b[0] + timedelta(days=b[1])))
CLOSED = st.builds(lambda single, breaks: single.union(*breaks), SINGLE, st.lists(BREAKS, max_size=3))
CALENDARS = st.builds(SchoolCalendar, CLOSED, WEEKDAYS)


def recurrence(calendar: SchoolCalendar, start: date) -> rruleset:
    days = rruleset()
    days.rrule(rrule(DAILY, byweekday=sorted(calendar.weekdays), dtstart=datetime.combine(start, time())))
    for closed in calendar.closed:
        days.exdate(datetime.combine(closed, time()))
    return days


def walk(calendar: SchoolCalendar, day: date, n: int) -> date:
    """n steps of one day each way, with the wait for each school day held to the reach."""
    step = timedelta(days=1 if n > 0 else -1)
    for _ in range(abs(n)):
        begun = day
        day += step
        while day.weekday() not in calendar.weekdays or day in calendar.closed:
            day += step
            if abs((day - begun).days) > REACH_DAYS:
                raise NoSchoolDay(begun, n > 0, calendar.weekdays)
    return day


@given(CALENDARS, DAYS, st.integers(1, 60))
def test_add_finds_the_nth_day_of_the_recurrence_set(calendar, day, n):
    later = recurrence(calendar, day + timedelta(days=1))
    assert calendar.add(day, n) == next(islice(later, n - 1, None)).date()


@given(CALENDARS, DAYS, DAYS)
def test_count_is_the_length_of_the_recurrence_set(calendar, after, through):
    start, end = after + timedelta(days=1), datetime.combine(through, time())
    expected = len(recurrence(calendar, start).between(datetime.combine(start, time()), end, inc=True))
    assert calendar.count(after, through) == expected


@given(CALENDARS, DAYS, st.integers(-200, -1))
def test_add_goes_back_as_a_walk_does(calendar, day, n):
    assert calendar.add(day, n) == walk(calendar, day, n)


@given(CALENDARS, DAYS, st.integers(0, 300))
def test_count_undoes_add(calendar, day, n):
    assert calendar.count(day, calendar.add(day, n)) == n


@given(CALENDARS, DAYS)
def test_on_or_after_and_on_or_before_hold_a_school_day_and_move_any_other(calendar, day):
    after, before = calendar.on_or_after(day), calendar.on_or_before(day)
    assert calendar.is_school_day(after)
    assert calendar.is_school_day(before)
    assert (before == day == after) if calendar.is_school_day(day) else (before < day < after)
    assert calendar.count(before, after) == (0 if before == after else 1)


@given(
    weekdays=WEEKDAYS,
    closures=st.lists(st.tuples(DAYS, st.integers(REACH_DAYS - 40, REACH_DAYS + 40)), min_size=1, max_size=2),
    day=st.dates(date(2025, 6, 1), date(2030, 6, 1)),
    n=st.integers(-300, 300).filter(bool),
)
def test_a_wait_beyond_the_reach_is_refused_exactly_where_a_walk_refuses_it(weekdays, closures, day, n):
    closed = {c for first, run in closures for c in days_between(first, first + timedelta(days=run))}
    calendar = SchoolCalendar(closed, weekdays)
    try:
        expected = walk(calendar, day, n)
    except NoSchoolDay:
        with pytest.raises(NoSchoolDay):
            calendar.add(day, n)
    else:
        assert calendar.add(day, n) == expected


@given(st.lists(CALENDARS, min_size=1, max_size=3), DAYS)
def test_together_is_closed_only_when_all_are(calendars, day):
    assert together(calendars).is_school_day(day) == any(c.is_school_day(day) for c in calendars)


def test_together_of_no_school_is_monday_to_friday():
    assert together([]) == SchoolCalendar()


def test_zero_days_later_is_the_day_itself_even_on_a_sunday():
    assert SchoolCalendar().add(date(2026, 10, 4), 0) == date(2026, 10, 4)


def test_one_school_day_around_a_weekend():
    saturday = date(2026, 10, 3)
    assert SchoolCalendar().add(saturday, 1) == date(2026, 10, 5)
    assert SchoolCalendar().add(saturday, -1) == date(2026, 10, 2)


def test_count_is_nothing_when_reversed():
    assert SchoolCalendar().count(date(2026, 10, 9), date(2026, 10, 5)) == 0


def test_a_calendar_without_weekdays_says_so():
    with pytest.raises(NoSchoolDay, match="No weekday has school"):
        SchoolCalendar(weekdays=()).on_or_after(date(2026, 10, 6))


def test_closed_for_years_says_so():
    calendar = SchoolCalendar(days_between(date(2026, 1, 1), date(2036, 12, 31)))
    with pytest.raises(NoSchoolDay, match="every day is closed for more than 731 days"):
        calendar.on_or_before(date(2030, 6, 1))
    assert calendar.on_or_after(date(2036, 12, 1)) == date(2037, 1, 1)


def test_the_end_of_the_calendar_is_refused_not_overrun():
    with pytest.raises(NoSchoolDay):
        SchoolCalendar().add(date.max, 1)
    with pytest.raises(NoSchoolDay):
        SchoolCalendar().add(date.min, -1)


def test_a_weekday_is_a_number_from_0_to_6():
    with pytest.raises(ValueError, match="from 0"):
        SchoolCalendar(weekdays=(1, 7))


def test_equal_calendars_are_one_key():
    closed = [date(2026, 11, 26), date(2026, 11, 27)]
    assert len({SchoolCalendar(closed), SchoolCalendar(closed[::-1], [4, 3, 2, 1, 0])}) == 1


def test_the_days_around_a_long_closure_can_be_reached_but_not_across_it():
    last, first = date(2026, 10, 1), date(2030, 10, 1)
    calendar = SchoolCalendar(days_between(last + timedelta(days=1), first - timedelta(days=1)))
    assert calendar.add(date(2026, 9, 30), 1) == last
    assert calendar.add(date(2030, 10, 2), -1) == first
    for day, n in ((last, 1), (first, -1)):
        with pytest.raises(NoSchoolDay):
            calendar.add(day, n)


def test_a_wait_of_exactly_the_reach_is_still_allowed():
    day = date(2026, 10, 1)
    end = day + timedelta(days=REACH_DAYS)
    calendar = SchoolCalendar(days_between(day, end - timedelta(days=1)), range(7))
    assert calendar.add(day, 1) == end
    with pytest.raises(NoSchoolDay):
        calendar.add(day - timedelta(days=1), 1)


def test_examples_of_days_ahead_hold():
    assert doctest.testmod(days_ahead).failed == 0
