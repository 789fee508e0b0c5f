"""A school year as it is entered: what it brings along, and at which schools."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import begin_year, open_days
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.school.clock import clock
from partners.school.models import ClosureKind, School
from tests import people, whole_book

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(june: Membership) -> School:
    return people.make_school(june.program)


@pytest.fixture
def own(june: Membership, school: School) -> Desk:
    return people.make_desk(june.program, user=june.user)


def test_around_school_years_that_are_known_lie_summers(signed_in: Client, own: Desk, school: School) -> None:
    address = reverse("school:day-new", args=[school.pk]) + "?kind=year"
    before, between = (date(2027, 6, 17), date(2027, 8, 25)), (date(2028, 6, 17), date(2028, 8, 25))
    summers = school.school_days.filter(kind=ClosureKind.CLOSED).values_list("first", "last")
    signed_in.post(address, {"first": "2027-08-26", "last": "2028-06-16"})
    assert list(summers.all()) == [before, between]
    july = date(2028, 7, 3)
    assert clock(own.program).count(july, july + timedelta(days=60)) == 5
    # Where lessons begin before ten weeks are over, the summer ends there.
    signed_in.post(address, {"first": "2028-08-22", "last": "2029-06-15"})
    assert list(summers.all()) == [before, (between[0], date(2028, 8, 21)), (date(2029, 6, 16), date(2029, 8, 24))]


def test_a_year_that_is_entered_anew_has_no_lessons_in_the_summer_of_the_mistake(own: Desk, school: School) -> None:
    for first, last in ((date(2027, 9, 7), date(2028, 5, 5)), (date(2027, 8, 26), date(2028, 6, 16))):
        begin_year(desk=own, schools=[school], first=first, last=last, day_one=False)
        year = school.school_days.get(kind=ClosureKind.YEAR)
        if first.month == 9:
            open_days(desk=own, days=year)
    closed = school.school_days.filter(kind=ClosureKind.CLOSED)
    assert not closed.filter(first__lte=year.last, last__gte=year.first).exists()


def test_a_school_year_begins_at_all_schools_at_once_and_with_day_one(
    signed_in: Client, own: Desk, school: School
) -> None:
    own.program.schools.update(cycle_length=6, cycle_from=date(2026, 9, 3))
    other = people.make_school(own.program, "North Ridge Elementary")
    before = whole_book.rows(own.program)
    typed = {"first": "2027-08-26", "last": "2028-06-16", "also_at": [other.pk], "day_one": "on"}
    signed_in.post(reverse("school:day-new", args=[school.pk]) + "?kind=year", typed)
    years = own.school_days.filter(kind=ClosureKind.YEAR).values_list("school", "first")
    assert sorted(years) == [(school.pk, date(2027, 8, 26)), (other.pk, date(2027, 8, 26))]
    assert list(own.schools.order_by("pk").values_list("cycle_from", flat=True)) == [date(2027, 8, 26), None]
    whole_book.undo_newest(own)
    assert whole_book.rows(own.program) == before
