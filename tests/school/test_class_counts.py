"""The number of students of past school years, kept before classes change for the next one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.test import Client

from partners.agenda.class_actions import remove_class, save_classes
from partners.program.desk import Desk
from partners.program.models import Program
from partners.school.actions import ClassLine, add_class, add_days, edit_class
from partners.school.class_counts import classes_in
from partners.school.count_models import ClassCount
from partners.school.models import ClosureKind
from partners.school.school_years import school_year, school_year_within
from tests import people, whole_book

MILLRACE = "Millrace Elementary"
JUNE_12 = date(2026, 6, 12)


@pytest.mark.parametrize(
    ("day", "ended", "year"),
    [
        (date(2026, 6, 30), [], 2025), (date(2026, 7, 1), [], 2026), (date(2027, 1, 1), [JUNE_12], 2026),
        (date(2026, 6, 20), [JUNE_12], 2026), (JUNE_12, [JUNE_12], 2025), (date(2026, 2, 3), [date(2026, 1, 29)], 2025),
    ],
)  # fmt: skip
def test_a_school_year_turns_in_july_or_once_the_one_before_is_over(day: date, ended: list[date], year: int) -> None:
    assert school_year(day, ended) == year


@pytest.mark.parametrize("month", [1, 7, 9, 10])
def test_a_programs_year_is_about_the_school_year_that_fills_most_of_it(month: int) -> None:
    assert school_year_within(date(2026, month, 1)) == 2026


@pytest.mark.django_db
def test_last_years_students_are_kept_when_classes_change_and_nothing_is_told_of_years_before(desk: Desk) -> None:
    """24 + 18 = 42 stood through June 2027; after it, 25 + 19 = 44. The book began in the fall of 2026."""
    school = people.make_school(desk.program)
    elm = add_class(desk=desk, school=school, label="3-Elm", grade=3, students=24)
    oak = add_class(desk=desk, school=school, label="K-Oak", grade=0, students=18)
    summer = replace(desk, day=date(2027, 7, 10))
    assert classes_in(summer, 2026) == [(MILLRACE, 2, 42)]
    assert classes_in(summer, 2025) == []
    before = whole_book.rows(desk.program)
    edit_class(desk=replace(desk, day=date(2027, 8, 20)), school_class=elm, students=25)
    whole_book.undo_newest(desk)
    assert whole_book.rows(desk.program) == before
    elm.refresh_from_db()
    edit_class(desk=replace(desk, day=date(2027, 8, 20)), school_class=elm, students=25)
    autumn = replace(desk, day=date(2027, 10, 1))
    edit_class(desk=autumn, school_class=oak, students=19)
    assert [classes_in(autumn, year) for year in (2025, 2026, 2027)] == [
        [], [(MILLRACE, 2, 42)], [(MILLRACE, 2, 44)],
    ]  # fmt: skip


@pytest.mark.django_db
def test_a_list_typed_after_the_last_day_is_the_next_years(desk: Desk) -> None:
    school = people.make_school(desk.program)
    fall = replace(desk, day=date(2025, 10, 7))
    elm = add_class(desk=fall, school=school, label="3-Elm", grade=3, students=24)
    add_days(desk=desk, school=school, first=date(2025, 9, 2), last=JUNE_12, kind=ClosureKind.YEAR)
    june = replace(desk, day=date(2026, 6, 20))
    save_classes(desk=june, lines=[ClassLine(school, "4-Elm", {"grade": 4, "students": 30})])
    remove_class(desk=june, school_class=elm)
    assert classes_in(june, 2025) == [(MILLRACE, 1, 24)]


@pytest.mark.django_db
def test_what_was_kept_of_a_year_is_put_right_by_hand_and_its_summary_tells_it(
    signed_in: Client, program: Program
) -> None:
    school = people.make_school(program)
    kept = ClassCount.objects.create(program=program, school=school, year=2025, classes=13, students=300)
    page = signed_in.get(school.get_absolute_url()).content.decode()
    assert "2025–26: 300 students, 13 classes" in page
    assert f'href="{kept.get_absolute_url()}"' in page
    signed_in.post(kept.get_absolute_url(), {"classes": "14", "students": "326", "seen": kept.version})
    assert classes_in(people.make_desk(program), 2025) == [(school.name, 14, 326)]
    unknown = ClassCount.objects.create(program=program, school=school, year=2024, classes=0, students=0)
    page = signed_in.get(school.get_absolute_url()).content.decode()
    assert f'no classes are written down\n              <a href="{unknown.get_absolute_url()}"' in page
