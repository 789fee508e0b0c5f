"""The plan of a show: hours, people, panels, and back from the opening."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.helpers.show_plan import (
    AFTER,
    BEFORE,
    JOBS,
    JobOfShow,
    Recorded,
    Wish,
    average_tenths,
    helpers_at,
    helpers_to_be_ready,
    minutes_of,
    panels,
    people_for,
    plan_show,
    sessions_for,
    starting_works,
)
from partners.school.calendar import SchoolCalendar

OPENING = date(2027, 3, 19)  # a Friday
CALENDAR = SchoolCalendar([date(2027, 3, 12)])
DAYS = st.dates(date(2026, 9, 1), date(2027, 6, 30))
CALENDARS = st.builds(
    SchoolCalendar,
    st.lists(DAYS, max_size=20),
    st.sampled_from([(0, 1, 2, 3, 4), (0, 2, 4), (1, 3), (0, 1, 2, 3, 4, 5)]),
)
WISHES = st.builds(
    Wish,
    works=st.integers(1, 400),
    opens_on=DAYS,
    closes_on=st.none(),
    more_percent=st.integers(0, 60),
    helpers=st.integers(1, 8),
    session_minutes=st.integers(15, 240),
)


def hanging(works: int, tenths: int = 25, *, measured: bool = False) -> JobOfShow:
    return JobOfShow("hanging", works, tenths, measured)


# Worked by hand from the trade's figures to start from (common practice): trim 1, mount 3, label 1, hang 2.5, take down
# 1, sort back 0.5 minutes a work, a fifth more for first-timers.
@pytest.mark.parametrize(
    ("job", "minutes"),
    [("cutting", 288), ("mounting", 864), ("labelling", 288), ("hanging", 720), ("taking_down", 288), ("sorting", 144)],
)
def test_the_minutes_of_two_hundred_and_forty_works(job, minutes):
    (one,) = (each for each in starting_works(240) if each.job == job)
    assert minutes_of(one, 20) == minutes


def test_a_class_takes_two_people_about_an_hour_to_hang():
    """The trade's own rule of thumb (common practice): 20 to 25 works, two people, about an hour."""
    for works in (20, 25):
        minutes = minutes_of(hanging(works), 20)
        assert helpers_at("hanging", people_for(minutes, 60)) == 2


def test_an_adult_hangs_about_twenty_five_works_an_hour():
    """The trade's rule (common practice), without first-timers: 60 minutes at 2.5 are 24 works."""
    assert abs(minutes_of(hanging(25), 0) - 60) <= 3


def test_part_of_a_minute_counts_as_one():
    assert minutes_of(JobOfShow("sorting", 7, 5), 20) == 5  # 4.2
    assert minutes_of(JobOfShow("sorting", 10, 5), 20) == 6


@pytest.mark.parametrize(("minutes", "at_hand", "people"), [(720, 60, 12), (720, 90, 8), (721, 90, 9), (0, 60, 0)])
def test_people_for_the_time_there_is(minutes, at_hand, people):
    assert people_for(minutes, at_hand) == people


def test_no_time_at_all_is_refused():
    with pytest.raises(ValueError, match="minutes"):
        people_for(100, 0)


@pytest.mark.parametrize(("works", "per_panel", "needed"), [(24, 12, 2), (25, 12, 3), (0, 12, 0), (1, 12, 1)])
def test_panels_are_whole(works, per_panel, needed):
    assert panels(works, per_panel) == needed


def test_what_was_written_down_is_averaged_over_all_works():
    """By hand (common practice): 100 works in 300 minutes and 20 in 90 are 390 minutes for 120 works, 3.25 each."""
    assert average_tenths([Recorded(100, 300), Recorded(20, 90)]) == 33
    assert average_tenths([]) is None
    assert average_tenths([Recorded(500, 1)]) == 1


def test_measured_minutes_hold_the_first_timers_already():
    assert minutes_of(hanging(100, 30, measured=True), 20) == 300
    assert minutes_of(hanging(100, 30), 20) == 360


def test_the_plan_back_from_the_opening():
    """By hand (common practice): 60 works, three helpers, an hour: trim 72, mount 216, label 72, hang 180 minutes are
    1, 2, 1 and 1 sessions of 180. The opening is on Friday the 19th; Friday the 12th has no school.
    """
    made = plan_show(Wish(60, OPENING, helpers=3, session_minutes=60), starting_works(60), CALENDAR)
    days = {
        task.job: (task.sessions, task.first and task.first.day, task.last and task.last.day) for task in made.tasks
    }
    assert days == {
        "cutting": (1, 11, 11),
        "mounting": (2, 15, 16),
        "labelling": (1, 17, 17),
        "hanging": (1, 18, 18),
        "taking_down": (1, None, None),
        "sorting": (1, None, None),
    }
    assert made.collect_by == date(2027, 3, 10)
    assert made.minutes == 72 + 216 + 72 + 180 + 72 + 36


def test_taking_down_begins_on_the_last_day_or_the_next_with_school():
    wish = Wish(60, OPENING, closes_on=date(2027, 4, 3), helpers=3)  # a Saturday
    made = {task.job: task for task in plan_show(wish, starting_works(60), CALENDAR).tasks}
    assert made["taking_down"].first == date(2027, 4, 5)
    assert made["sorting"].first == date(2027, 4, 6)


def test_an_opening_on_a_saturday_is_hung_on_friday():
    made = plan_show(Wish(20, date(2027, 3, 20)), [hanging(20)], CALENDAR)
    assert made.tasks[0].last == date(2027, 3, 19)


def test_nobody_hangs_alone():
    assert plan_show(Wish(5, OPENING, helpers=1), [hanging(5)], CALENDAR).tasks[0].helpers == 2


def test_how_many_helpers_would_still_be_ready():
    wish, jobs = Wish(240, OPENING, helpers=1), starting_works(240)
    assert helpers_to_be_ready(wish, jobs, CALENDAR, date(2027, 3, 19)) is None
    few = helpers_to_be_ready(wish, jobs, CALENDAR, date(2027, 3, 1))
    assert few is not None
    for helpers, ready in ((few, True), (few - 1, False)):
        made = plan_show(Wish(240, OPENING, helpers=helpers), jobs, CALENDAR)
        assert (made.collect_by >= date(2027, 3, 1)) is ready


def walked_back(calendar: SchoolCalendar, day: date, sessions: int) -> tuple[date, date]:
    """The last so many school days before `day`, walked one by one: the oracle of the plan."""
    found: list[date] = []
    while len(found) < sessions:
        day -= timedelta(days=1)
        if calendar.is_school_day(day):
            found.append(day)
    return found[-1], found[0]


@given(WISHES, CALENDARS, st.sets(st.sampled_from(BEFORE)))
def test_the_plan_is_that_of_walking_back_day_by_day(wish, calendar, names):
    made = plan_show(wish, [job for job in starting_works(wish.works) if job.job in names], calendar)
    day = wish.opens_on
    for task in reversed(made.tasks):
        assert (task.first, task.last) == walked_back(calendar, day, task.sessions)
        day = task.first
    assert made.collect_by == walked_back(calendar, day, 1)[0]


@given(WISHES, CALENDARS, st.integers(0, 60))
def test_days_after_the_show_are_those_of_walking_on(wish, calendar, shown):
    closes = wish.opens_on + timedelta(days=shown)
    wish = Wish(wish.works, wish.opens_on, closes, wish.more_percent, wish.helpers, wish.session_minutes)
    made = plan_show(wish, starting_works(wish.works), calendar)
    day = closes
    used: list[date] = []
    wanted = sum(task.sessions for task in made.tasks if task.job in AFTER)
    while len(used) < wanted:
        if calendar.is_school_day(day):
            used.append(day)
        day += timedelta(days=1)
    down, back = (task for task in made.tasks if task.job in AFTER)
    assert (down.first, down.last) == (used[0], used[down.sessions - 1])
    assert (back.first, back.last) == (used[down.sessions], used[-1])


@given(st.integers(0, 5000), st.integers(1, 1000), st.integers(0, 200))
def test_minutes_are_the_smallest_that_are_enough(works, tenths, percent):
    minutes = minutes_of(JobOfShow("mounting", works, tenths), percent)
    needed = works * tenths * (100 + percent)
    assert (minutes - 1) * 1000 < needed <= minutes * 1000 or (needed == minutes == 0)


@given(st.integers(1, 5000), st.integers(1, 12), st.integers(15, 240))
def test_sessions_are_the_fewest_that_are_enough(minutes, helpers, length):
    sessions = sessions_for(minutes, helpers, length)
    assert (sessions - 1) * helpers * length < minutes <= sessions * helpers * length


@given(st.lists(st.builds(Recorded, st.integers(1, 300), st.integers(1, 3000)), min_size=1, max_size=6))
def test_a_show_like_the_recorded_ones_is_planned_as_long_as_they_took(recorded):
    tenths, works = average_tenths(recorded), sum(show.works for show in recorded)
    planned = minutes_of(JobOfShow("hanging", works, tenths, measured=True), 20)
    took = sum(show.minutes for show in recorded)
    assert abs(planned - took) <= works / 20 + 1 or tenths == 1


@given(WISHES, CALENDARS)
def test_more_helpers_never_have_to_begin_earlier(wish, calendar):
    jobs = starting_works(wish.works)
    more = Wish(wish.works, wish.opens_on, None, wish.more_percent, wish.helpers + 1, wish.session_minutes)
    assert plan_show(more, jobs, calendar).collect_by >= plan_show(wish, jobs, calendar).collect_by


def test_every_job_is_known_once():
    assert len(set(JOBS)) == len(JOBS) == len(starting_works(1))
