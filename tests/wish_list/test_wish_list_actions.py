"""What can be done to the wish list: each verb is one change, and its undo leaves no trace."""

from __future__ import annotations

import pytest
from django.db.models import ProtectedError

from partners.agenda.check_book import differences
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.promises.actions import promise
from partners.wish_list import actions
from partners.wish_list.models import CannotUse, Need
from tests.people import TUESDAY, make_partner
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def book_agrees(program):
    """Whatever was done, every stored fact is what the record says; word without a visit is told here by hand."""
    yield
    assert [told for told in differences(program) if "last_heard_on" not in told] == []


@pytest.fixture
def need(program):
    return Need.objects.create(program=program, what="terracotta pots", quantity=60)


def test_a_need_is_added_and_taken_back(desk):
    before = rows(desk.program)
    added = actions.add_need(desk=desk, what="yarn", quantity=5)
    assert (Need.objects.get(), Event.objects.count()) == (added, 1)
    undo_newest(desk)
    assert rows(desk.program) == before


@pytest.mark.parametrize(
    ("verb", "values"),
    [
        (actions.edit_need, {"what": "clay pots", "quantity": 40}),
        (actions.enough, {}),
        (actions.remove_need, {}),
    ],
)
def test_a_need_is_changed_and_put_back(desk, need, verb, values):
    before = rows(desk.program)
    verb(desk=desk, need=need, **values)
    assert rows(desk.program) != before
    undo_newest(desk)
    assert rows(desk.program) == before


def test_enough_can_be_opened_again(desk, need):
    actions.enough(desk=desk, need=need)
    assert not Need.objects.open().exists()
    actions.open_again(desk=desk, need=need)
    assert Need.objects.open().exists()


def test_a_need_that_was_promised_cannot_be_taken_out(desk, need):
    partner = make_partner(desk.program)
    promise(desk=desk, partner=partner, side="them", what="pots", due=TUESDAY, made_on=TUESDAY, need=need)
    before = rows(desk.program)
    with pytest.raises(ProtectedError):
        actions.remove_need(desk=desk, need=need)
    assert rows(desk.program) == before


def test_an_edit_on_an_old_version_is_refused(desk, need):
    actions.edit_need(desk=desk, need=need, seen=1, quantity=10)
    with pytest.raises(ChangedMeanwhile):
        actions.edit_need(desk=desk, need=need, seen=1, quantity=20)


def test_what_we_cannot_use_is_listed_and_taken_out_and_each_is_undone(desk):
    before = rows(desk.program)
    thing = actions.add_cannot_use(desk=desk, what="glass", why="sharp")
    listed = rows(desk.program)
    actions.remove_cannot_use(desk=desk, thing=thing)
    assert not CannotUse.objects.exists()
    undo_newest(desk)
    assert rows(desk.program) == listed
    assert listed != before
