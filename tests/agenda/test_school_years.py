"""A school year as it is entered: what it brings along, and at which schools."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.program.desk import Desk
from partners.program.models import Membership
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


def test_before_the_first_school_year_lies_a_summer(signed_in: Client, own: Desk, school: School) -> None:
    address = reverse("school:day-new", args=[school.pk]) + "?kind=year"
    for first, last in (("2027-08-26", "2028-06-16"), ("2028-08-24", "2029-06-15")):
        signed_in.post(address, {"first": first, "last": last})
    (summer,) = school.school_days.filter(kind=ClosureKind.CLOSED)
    assert (summer.first, summer.last) == (date(2027, 6, 17), date(2027, 8, 25))


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
