"""Rotating cycles and class meetings, against a walk that carries the number from one day to the next."""

from datetime import date, datetime, time, timedelta

import pytest
from dateutil.rrule import WEEKLY, rrule, rruleset
from hypothesis import given
from hypothesis import strategies as st

from partners.school.calendar import SchoolCalendar
from partners.school.closures import days_between
from partners.school.cycle import Cycle, cycle_day, meetings

START = date(2026, 8, 31)
NEAR = st.dates(START, START + timedelta(days=90))
CLOSURES = st.sets(NEAR, max_size=15)
WEEKDAYS = st.sets(st.integers(0, 6), min_size=1)
TUESDAY, WEDNESDAY = date(2026, 9, 1), date(2026, 9, 2)


def walked(planned, weekdays, cycle, last, unplanned):
    """The number of each school day: it moves on after a day of school, and after a lost day only when it skips."""
    numbers, number = {}, 1
    for day in days_between(cycle.first_day, last):
        if day.weekday() not in weekdays or (day in planned and day not in unplanned):
            continue
        if day in unplanned:
            number += 0 if cycle.slips else 1
        else:
            numbers[day] = (number - 1) % cycle.length + 1
            number += 1
    return numbers


@given(CLOSURES, CLOSURES, WEEKDAYS, NEAR, st.integers(1, 8), st.booleans(), st.booleans())
def test_cycle_day_agrees_with_the_walk(planned, unplanned, weekdays, first, length, slips, all_in_calendar):
    calendar = SchoolCalendar(planned | unplanned if all_in_calendar else planned, weekdays)
    cycle = Cycle(first, length, slips)
    numbers = walked(planned - unplanned, weekdays, cycle, START + timedelta(days=120), unplanned)
    for day in days_between(START, START + timedelta(days=120)):
        assert cycle_day(calendar, cycle, day, unplanned) == numbers.get(day)


@given(CLOSURES, CLOSURES, NEAR, st.integers(2, 8), st.sets(st.integers(1, 8)), st.booleans())
def test_meetings_by_cycle_day_agree_with_the_walk(planned, unplanned, first, length, on, slips):
    cycle = Cycle(START + timedelta(days=9), length, slips)
    last = START + timedelta(days=80)
    numbers = walked(planned - unplanned, range(5), cycle, last, unplanned)
    found = meetings(SchoolCalendar(planned), first, last, on, cycle, unplanned)
    assert found == [day for day, number in numbers.items() if number in on and day >= first]


@given(CLOSURES, CLOSURES, WEEKDAYS, st.sets(st.integers(0, 6)), NEAR, st.integers(0, 60))
def test_meetings_by_weekday_agree_with_recurrence_rules(planned, unplanned, weekdays, on, first, length):
    # python-dateutil's rrule and rruleset: RFC 5545 FREQ=WEEKLY;BYDAY=… less EXDATE.
    last = first + timedelta(days=length)
    rules = rruleset()
    if on & weekdays:
        rules.rrule(rrule(WEEKLY, at_midnight(first), byweekday=sorted(on & weekdays), until=at_midnight(last)))
    for day in planned | unplanned:
        rules.exdate(at_midnight(day))
    found = meetings(SchoolCalendar(planned, weekdays), first, last, on, unplanned=unplanned)
    assert found == [moment.date() for moment in rules]


def at_midnight(day):
    return datetime.combine(day, time())


def test_after_a_snow_day_the_cycle_waits():
    assert cycle_day(SchoolCalendar(), Cycle(START, 6, slips=True), WEDNESDAY, [TUESDAY]) == 2


def test_after_a_snow_day_the_number_is_skipped():
    assert cycle_day(SchoolCalendar(), Cycle(START, 6, slips=False), WEDNESDAY, [TUESDAY]) == 3


def test_a_planned_closure_never_costs_a_number():
    for slips in (True, False):
        assert cycle_day(SchoolCalendar([TUESDAY]), Cycle(START, 6, slips), WEDNESDAY) == 2


def test_a_day_without_school_and_a_day_before_the_cycle_have_no_number():
    cycle = Cycle(TUESDAY, 6)
    days = (START, date(2026, 9, 5), WEDNESDAY)
    assert [cycle_day(SchoolCalendar(), cycle, day, [WEDNESDAY]) for day in days] == [None, None, None]


def test_meetings_by_weekday_leave_out_every_closure():
    found = meetings(SchoolCalendar([date(2026, 9, 8)]), START, date(2026, 9, 30), [1], unplanned=[date(2026, 9, 15)])
    assert found == [TUESDAY, date(2026, 9, 22), date(2026, 9, 29)]


def test_a_closure_entered_twice_is_lost_once():
    assert cycle_day(SchoolCalendar(), Cycle(START, 6, slips=True), WEDNESDAY, [TUESDAY, TUESDAY]) == 2


def test_a_cycle_of_no_days_is_refused():
    with pytest.raises(ValueError, match="at least one day"):
        Cycle(START, 0)
