"""250 items over 48 classes of three schools: one by weekdays, one whose cycle waits after snow, one whose skips."""

from datetime import date

import pytest

from partners.exchanges.plan import plan
from partners.school.class_meetings import class_meetings
from partners.school.models import ClosureKind, SchoolClass, SchoolDays
from tests import people
from tests.exchanges.planning import DUE, LAST_WORK, MONDAY, make_class, make_wish, worked

SNOW = date(2026, 10, 22)
KINDS = {
    "Millrace Elementary": {},
    "North Ridge Elementary": {"cycle_length": 6, "cycle_from": MONDAY, "cycle_slips": True},
    "Alder Creek Elementary": {"cycle_length": 5, "cycle_from": MONDAY, "cycle_slips": False},
}


@pytest.fixture
def classes(program):
    """Sixteen classes in each school, of 14 to 29 children, one lesson a week or a cycle."""
    schools = [people.make_school(program, name, **values) for name, values in KINDS.items()]
    return SchoolClass.objects.bulk_create(
        SchoolClass(
            program=program, school=school, label=f"{n}", grade=n % 6, students=14 + n, meets_on=[1 + n % 4], minutes=40
        )
        for school in schools
        for n in range(16)
    )


def planned(classes, at_least=250, last=LAST_WORK, minutes_per_item=60):
    met = class_meetings(classes[0].program, classes, MONDAY, DUE)
    inputs = [
        make_class(one.pk, one.students, school=one.school.name, lesson_minutes=one.minutes, meetings=met[one.pk])
        for one in classes
    ]
    wish = make_wish(at_least, work_until=last, minutes_per_item=minutes_per_item)
    return plan(wish, inputs), inputs


@pytest.mark.parametrize("snowed_in", KINDS)
def test_snow_in_one_school_moves_only_its_starts(program, classes, snowed_in):
    before, _inputs = planned(classes)
    SchoolDays.objects.create(
        program=program, school=program.schools.get(name=snowed_in), kind=ClosureKind.UNPLANNED, first=SNOW, last=SNOW
    )
    after, _inputs = planned(classes)
    moved = {was.school for was, now in zip(before.rows, after.rows, strict=True) if was.start != now.start}
    assert moved == {snowed_in}
    assert [row.share for row in before.rows] == [row.share for row in after.rows]
    assert sum(row.share for row in after.rows) == 250
    assert before.fits
    assert after.fits


def test_an_impossible_day_says_how_many_are_missing(classes):
    made, inputs = planned(classes, last=date(2026, 10, 9), at_least=2000)
    there = sum(
        worked(one.taking_part, 40, 60, sum(day <= date(2026, 10, 9) for day in one.meetings), row.share)
        for one, row in zip(inputs, made.rows, strict=True)
    )
    assert (made.total, made.short_by) == (2000, 2000 - there)
    assert made.short_by == sum(row.short_by for row in made.rows) > 0


def test_a_day_in_the_past_leaves_everything_missing(classes):
    made, _inputs = planned(classes, last=date(2026, 9, 30))
    assert (made.short_by, made.first_start) == (250, None)
