"""The demo book tells its own story whole: what the file names is found in the record."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
from django.db import transaction

from partners.agenda.check_book import differences
from partners.config import demo_procedures
from partners.config.demo_book import BOOK, Loader, load_demo
from partners.config.demo_season import in_season, school_year_around
from partners.program.desk import Desk
from partners.program.models import Program
from partners.school.models import ClosureKind

pytestmark = pytest.mark.django_db

DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def loaded(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    """The demo book, loaded once for all that only read it, and gone again."""
    with django_db_blocker.unblock(), transaction.atomic():
        point = transaction.savepoint()
        load_demo(DAY)
        yield
        transaction.savepoint_rollback(point)


@pytest.fixture
def told(loaded: None, db: object) -> Program:
    return Program.objects.get()


def test_it_has_the_schools_classes_and_students_that_the_design_names(told: Program) -> None:
    assert told.schools.count() == 2
    assert told.classes.count() == 26
    assert sum(told.classes.values_list("students", flat=True)) == 604
    assert told.class_counts.get(year=2025).students == 326


def test_its_schools_are_closed_on_the_usual_holidays_and_the_friday_after_thanksgiving(told: Program) -> None:
    closed = told.school_days.filter(kind=ClosureKind.CLOSED)
    for day in (date(2026, 11, 26), date(2026, 11, 27), date(2027, 1, 18)):
        assert closed.filter(first__lte=day, last__gte=day).count() == told.schools.count()


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


def test_a_school_year_that_is_told_behind_the_trades_moves_their_days(told: Program, monkeypatch: Any) -> None:
    told.school_days.filter(kind=ClosureKind.YEAR).delete()
    book = Loader(Desk(program=told, day=DAY, user=None), json.loads(BOOK.read_text(encoding="utf-8")))
    monkeypatch.setattr(demo_procedures, "school_year_around", lambda day: (day - timedelta(88), day + timedelta(6)))
    short = {"school_year": "School year", "written_down": [], "approved": []}
    demo_procedures.tell_procedures(book, book.desk, short)
    assert differences(told) == []


@pytest.mark.parametrize(
    ("day", "due", "falls_on"),
    [
        (date(2026, 11, 25), date(2026, 12, 11), date(2026, 12, 11)),
        (date(2026, 6, 1), date(2026, 6, 30), date(2026, 6, 12)),
        (date(2026, 7, 10), date(2026, 7, 26), date(2026, 9, 10)),
        (date(2026, 8, 20), date(2026, 9, 20), date(2026, 9, 20)),
    ],
)
def test_its_school_year_ends_in_june_and_nothing_is_due_in_summer(day: date, due: date, falls_on: date) -> None:
    """In 2026 the last Tuesday of August is the 25th, and the 12th of June a Friday."""
    first, last = school_year_around(day)
    assert (last.month, first.month, last.year - first.year) == (6, 8, 1)
    assert in_season(day, due) == falls_on
