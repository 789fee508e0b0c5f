"""A verb is one event; undo restores what was; nobody overwrites anybody; a form is saved once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from django.db import transaction
from django.utils.translation import gettext_noop

from partners.ground.changes import AlreadySaved, ChangedMeanwhile, change
from partners.ground.undo import CannotUndo, undo
from partners.program.desk import Desk
from partners.school.actions import add_school, edit_school
from partners.school.models import School
from tests.people import make_school
from tests.whole_book import rows

pytestmark = pytest.mark.django_db


def test_a_verb_writes_one_event_with_its_words(desk: Desk) -> None:
    add_school(desk=desk, name="North Ridge")
    assert [str(event) for event in desk.program.events.all()] == ["School North Ridge added"]


def test_a_verb_inside_a_verb_joins_its_event(desk: Desk) -> None:
    with change(desk, gettext_noop("Two schools")):
        add_school(desk=desk, name="One")
        add_school(desk=desk, name="Two")
    assert len(desk.program.events.get().changes) == 2


def test_a_verb_that_fails_leaves_nothing(desk: Desk) -> None:
    def fail_half_way() -> None:
        with change(desk, gettext_noop("Half")):
            add_school(desk=desk, name="One")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail_half_way()
    assert not School.objects.exists()
    assert not desk.program.events.exists()


def test_undo_of_an_addition_takes_it_out(desk: Desk) -> None:
    before = rows(desk.program)
    add_school(desk=desk, name="One")
    undo(desk, desk.program.events.get())
    assert rows(desk.program) == before


def test_undo_of_a_change_restores_the_dump_and_can_be_undone(desk: Desk) -> None:
    school = make_school(desk.program)
    before = rows(desk.program)
    edit_school(desk=desk, school=school, name="Another", weekdays=[0, 1])
    after = rows(desk.program)
    undone = undo(desk, desk.program.events.get())
    assert rows(desk.program) == before
    undo(desk, undone)
    assert rows(desk.program) == after


def test_undo_of_a_removal_puts_the_same_row_back(desk: Desk) -> None:
    school = make_school(desk.program)
    before = rows(desk.program)
    with change(desk, gettext_noop("Removed")) as book:
        book.remove(school)
    undo(desk, desk.program.events.get())
    assert rows(desk.program) == before


def test_undo_refuses_when_the_row_was_changed_again(desk: Desk) -> None:
    school = make_school(desk.program)
    edit_school(desk=desk, school=school, name="Second")
    event = desk.program.events.get()
    edit_school(desk=desk, school=school, name="Third")
    with pytest.raises(CannotUndo, match="changed again"):
        undo(desk, event)
    school.refresh_from_db()
    assert school.name == "Third"


def test_changes_of_one_row_are_taken_back_one_after_the_other(desk: Desk) -> None:
    school = make_school(desk.program)
    states = [rows(desk.program)]
    for name in ("One", "Two", "Three"):
        edit_school(desk=desk, school=school, name=name)
        states.append(rows(desk.program))
    first, second, third = desk.program.events.order_by("pk")
    for event, before in ((third, states[2]), (second, states[1]), (first, states[0])):
        undo(desk, event)
        assert rows(desk.program) == before


def test_what_was_put_back_after_an_undo_stops_an_earlier_undo(desk: Desk) -> None:
    school = make_school(desk.program)
    edit_school(desk=desk, school=school, name="One")
    edit_school(desk=desk, school=school, name="Two")
    first, second = desk.program.events.order_by("pk")
    back = undo(desk, undo(desk, second))
    assert str(back) == f"Put back: {second}"
    with pytest.raises(CannotUndo, match="changed again"):
        undo(desk, first)
    assert School.objects.get().name == "Two"


def test_undo_refuses_when_something_stands_on_the_row(desk: Desk) -> None:
    school = add_school(desk=desk, name="One")
    event = desk.program.events.get()
    school.approvals.create(program=desk.program, by="Principal", on=desk.day)
    with pytest.raises(CannotUndo, match="stands on it"):
        undo(desk, event)


def test_undo_twice_is_refused(desk: Desk) -> None:
    add_school(desk=desk, name="One")
    event = desk.program.events.get()
    undo(desk, event)
    with pytest.raises(CannotUndo, match="already"):
        undo(desk, event)


def test_an_old_page_does_not_overwrite(desk: Desk) -> None:
    school = make_school(desk.program)
    edit_school(desk=desk, school=school, seen=1, name="Second")
    with pytest.raises(ChangedMeanwhile) as caught:
        edit_school(desk=desk, school=school, seen=1, name="Third")
    assert caught.value.stored.name == "Second"


def test_a_page_from_before_an_undo_does_not_overwrite(desk: Desk) -> None:
    school = make_school(desk.program)
    edit_school(desk=desk, school=school, name="Second")
    undo(desk, desk.program.events.get())
    with pytest.raises(ChangedMeanwhile):
        edit_school(desk=desk, school=School.objects.get(), seen=2, name="Third")


def test_a_form_is_saved_once(desk: Desk) -> None:
    form = replace(desk, once="a token")
    add_school(desk=form, name="One")
    with pytest.raises(AlreadySaved) as caught, transaction.atomic():
        add_school(desk=form, name="One")
    assert caught.value.event == desk.program.events.get()
    assert School.objects.count() == 1


def test_a_row_that_a_verb_touched_twice_goes_back_whole(desk: Desk) -> None:
    before = rows(desk.program)
    with change(desk, gettext_noop("Added and corrected")) as book:
        school = book.add(School(name="One"))
        book.update(school, name="Two")
        book.update(school, name="Three")
    undo(desk, desk.program.events.get())
    assert rows(desk.program) == before


def test_many_rows_go_in_and_out_in_few_statements(desk: Desk, django_assert_max_num_queries: Any) -> None:
    before = rows(desk.program)
    with django_assert_max_num_queries(10), change(desk, gettext_noop("Many")) as book:
        book.add_many([School(name=f"School {number}") for number in range(20)])
    after = rows(desk.program)
    with django_assert_max_num_queries(75):
        undone = undo(desk, desk.program.events.get())
    assert rows(desk.program) == before
    undo(desk, undone)
    assert rows(desk.program) == after


def test_what_many_rows_were_changed_to_is_taken_back(desk: Desk) -> None:
    schools = [make_school(desk.program, f"School {number}") for number in range(3)]
    before = rows(desk.program)
    with change(desk, gettext_noop("Many")) as book:
        book.update_each([(school, {"city": f"Town {school.pk}"}) for school in schools])
    undo(desk, desk.program.events.get())
    assert rows(desk.program) == before
