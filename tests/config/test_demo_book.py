"""The demo book tells its own story whole: what the file names is found in the record."""

from __future__ import annotations

import json
from datetime import date

import pytest

from partners.agenda.check_book import differences
from partners.config.demo_book import BOOK, load_demo
from partners.program.models import Program

pytestmark = pytest.mark.django_db

DAY = date(2026, 11, 25)


@pytest.fixture
def told() -> Program:
    load_demo(DAY)
    return Program.objects.get()


def test_it_has_the_schools_classes_and_students_that_the_design_names(told: Program) -> None:
    assert told.schools.count() == 2
    assert told.classes.count() == 26
    assert sum(told.classes.values_list("students", flat=True)) == 604


def test_every_gift_that_names_a_project_has_it(told: Program) -> None:
    arrivals = [
        entry["arrived"] for entry in json.loads(BOOK.read_text(encoding="utf-8"))["history"] if "arrived" in entry
    ]
    named = sum("project" in arrival for arrival in arrivals)
    assert named > 0
    assert told.gifts.filter(project__isnull=False).count() == named


def test_something_is_always_overdue_and_the_book_is_sound(told: Program) -> None:
    assert told.thanks.filter(done_on=None, due__lt=DAY).exists()
    assert told.promises.filter(settled_on=None, due__lt=DAY).exists()
    assert differences(told) == []


@pytest.mark.parametrize("day", [date(2026, 7, 4), date(2027, 1, 1), date(2028, 2, 29)])
def test_it_loads_on_any_day(db: object, day: date) -> None:
    load_demo(day)
    assert differences(Program.objects.get()) == []
