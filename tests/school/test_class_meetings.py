"""When classes have art: weekdays and cycle days, less closures and lost lessons, for many classes at once."""

from datetime import date, timedelta

import pytest

from partners.school.class_meetings import class_meetings
from partners.school.models import ClosureKind, LostLesson, SchoolClass, SchoolDays
from tests import people

MONDAY, FRIDAY = date(2026, 10, 5), date(2026, 10, 30)
MONDAYS = [MONDAY + timedelta(weeks=week) for week in range(4)]


def make_class(school, label="3B", grade=3, meets_on=(0,)):
    return SchoolClass.objects.create(
        program=school.program, school=school, label=label, grade=grade, students=20, meets_on=list(meets_on)
    )


def close(school, first, last, kind=ClosureKind.CLOSED):
    SchoolDays.objects.create(program=school.program, school=school, kind=kind, first=first, last=last)


def lose(school, day, **values):
    LostLesson.objects.create(program=school.program, school=school, **{"first": day, "last": day, **values})


def met(one, first=MONDAY, last=FRIDAY):
    return class_meetings(one.program, [one], first, last)[one.pk]


@pytest.fixture
def school(program):
    return people.make_school(program)


def test_a_class_meets_on_its_weekdays_but_not_on_closed_days(school):
    close(school, date(2026, 10, 12), date(2026, 10, 14))
    close(school, date(2026, 10, 19), date(2026, 10, 19), ClosureKind.UNPLANNED)
    one = make_class(school, meets_on=[2, 0])
    assert met(one, last=date(2026, 10, 21)) == [MONDAY, date(2026, 10, 7), date(2026, 10, 21)]


@pytest.mark.parametrize(("slips", "expected"), [(True, [5, 9, 14]), (False, [5, 8, 13])])
def test_a_class_meets_on_its_cycle_day_over_a_snow_day(program, slips, expected):
    school = people.make_school(program, cycle_length=3, cycle_from=MONDAY, cycle_slips=slips)
    close(school, date(2026, 10, 6), date(2026, 10, 6), ClosureKind.UNPLANNED)
    days = met(make_class(school, meets_on=[1]), last=date(2026, 10, 14))
    assert days == [date(2026, 10, day) for day in expected]


def test_a_cycle_without_a_first_day_places_no_lesson(program):
    school = people.make_school(program, cycle_length=6)
    assert met(make_class(school, meets_on=[1])) == []


def test_a_class_that_does_not_say_when_it_meets_has_no_meetings(school):
    assert met(make_class(school, meets_on=[])) == []


def test_lost_lessons_of_a_school_a_grade_or_a_class(school):
    third, other, fourth = make_class(school), make_class(school, "3C"), make_class(school, "4A", 4)
    lose(school, MONDAYS[0], title="assembly")
    lose(school, MONDAYS[1], grade=3)
    lose(school, MONDAYS[2], school_class=third)
    lose(school, MONDAYS[3], school_class=third, grade=4)
    found = class_meetings(school.program, [third, other, fourth], MONDAY, FRIDAY)
    assert found[third.pk] == [MONDAYS[3]]
    assert found[other.pk] == MONDAYS[2:]
    assert found[fourth.pk] == MONDAYS[1:]


def test_testing_that_goes_on_for_days_costs_every_lesson_in_it(school):
    lose(school, date(2026, 10, 8), last=date(2026, 10, 20))
    one = make_class(school)
    assert met(one) == [MONDAYS[0], MONDAYS[3]]
    assert met(one, first=MONDAYS[2]) == [MONDAYS[3]]


def test_a_lost_lesson_does_not_move_the_cycle(program):
    school = people.make_school(program, cycle_length=5, cycle_from=MONDAY)
    lose(school, MONDAYS[1])
    assert met(make_class(school, meets_on=[1])) == [MONDAYS[0], *MONDAYS[2:]]


def test_nobody_meets_outside_the_school_years_that_are_entered(school):
    close(school, MONDAYS[1], date(2027, 6, 11), ClosureKind.YEAR)
    one = make_class(school)
    assert met(one) == MONDAYS[1:]
    assert met(one, date(2027, 6, 1), date(2027, 9, 30)) == [date(2027, 6, 7)]


def test_summer_lies_between_two_school_years(school):
    close(school, date(2026, 8, 31), date(2027, 6, 11), ClosureKind.YEAR)
    close(school, date(2027, 8, 30), date(2028, 6, 9), ClosureKind.YEAR)
    assert met(make_class(school), date(2027, 6, 1), date(2027, 9, 6)) == [
        date(2027, 6, 7),
        date(2027, 8, 30),
        date(2027, 9, 6),
    ]


def test_another_school_s_closures_and_lost_lessons_do_not_count(program, school):
    other = people.make_school(program, "North Ridge Elementary")
    close(other, MONDAYS[0], MONDAYS[0])
    lose(other, MONDAYS[1])
    assert met(make_class(school)) == MONDAYS


def test_days_the_wrong_way_round_hold_no_meeting(school):
    assert met(make_class(school), FRIDAY, MONDAY) == []


def test_many_classes_cost_as_many_queries_as_one(program, school, django_assert_num_queries):
    schools = [school, people.make_school(program, "North Ridge Elementary", cycle_length=6, cycle_from=MONDAY)]
    classes = [make_class(schools[n % 2], f"{n}", meets_on=[n % 5]) for n in range(12)]
    for some in (classes[:1], classes):
        with django_assert_num_queries(6):
            class_meetings(program, some, MONDAY, FRIDAY)
