"""Sessions from planned to thanked: what each verb does, and that taking it back leaves no trace."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from partners.agenda.actions import close_days
from partners.agenda.check_book import differences
from partners.helpers import session_actions
from partners.helpers.actions import add_helper
from partners.helpers.session_models import Reply
from tests import people
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
FRIDAY = date(2026, 10, 23)


@pytest.fixture(autouse=True)
def sound_book(program):
    """Whatever a verb did, what the book keeps ready still follows from the record."""
    yield
    assert differences(program) == []


@pytest.fixture
def school(program):
    return people.make_school(program)


@pytest.fixture
def session(desk, school):
    return plan(desk, FRIDAY, school=school, needed=2)


@pytest.fixture
def rosa(desk):
    return add_helper(desk=desk, name="Rosa Delgado", phone="(201) 555-0140")


def plan(desk, day, **values):
    hours = {"starts": time(13), "ends": time(15), "place": "the gym", "job": "hanging"}
    return session_actions.add_session(desk=desk, day=day, **{**hours, **values})


def asked(desk, session, *helpers):
    return session_actions.ask_helpers(desk=desk, session=session, helpers=helpers)


def test_a_session_is_confirmed_a_week_and_a_school_day_before(session):
    assert (session.week_due, session.day_due, session.short_due) == (
        date(2026, 10, 16), date(2026, 10, 22), date(2026, 10, 16),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("ahead", "week", "day"),
    [(7, None, date(2026, 10, 12)), (1, None, DAY), (0, None, None), (-3, None, None)],
)
def test_what_is_past_already_is_not_confirmed(desk, ahead, week, day):
    planned = plan(desk, DAY + timedelta(days=ahead))
    assert (planned.week_due, planned.day_due) == (week, day)
    assert planned.short_due == (day or planned.day)


def test_a_closure_moves_the_days(desk, school, session):
    close_days(desk=desk, school=school, stretches=[(date(2026, 10, 15), date(2026, 10, 16), "closed", "Fair")])
    session.refresh_from_db()
    assert session.week_due == session.short_due == date(2026, 10, 14)
    undo_newest(desk)
    session.refresh_from_db()
    assert session.week_due == session.short_due == date(2026, 10, 16)


def test_answers_are_counted_and_the_session_is_short_until_enough_said_yes(desk, session, rosa):
    two = [*asked(desk, session, rosa), *asked(desk, session, add_helper(desk=desk, name="Ilse"))]
    for turn, short in zip(two, (session.short_due, None), strict=True):
        session_actions.reply(desk=desk, turn=turn, answer=Reply.YES, day=DAY)
        turn.session.refresh_from_db()
        assert turn.session.short_due == short
    assert (turn.session.said_yes, turn.replied_on) == (2, DAY)
    undo_newest(desk)
    session.refresh_from_db()
    assert (session.said_yes, session.short_due) == (1, date(2026, 10, 16))


def test_nobody_is_in_a_session_twice(desk, session, rosa):
    asked(desk, session, rosa)
    with pytest.raises(session_actions.TwiceInSession, match="Rosa Delgado is in this session already"):
        asked(desk, session, rosa)


def test_a_yes_was_for_its_day_so_on_another_day_they_are_asked_again(desk, session, rosa):
    session_actions.reply(desk=desk, turn=asked(desk, session, rosa)[0], answer=Reply.YES, day=DAY)
    session_actions.confirm_day(desk=desk, session=session, day=DAY)
    session.refresh_from_db()
    session_actions.edit_session(desk=desk, session=session, day=FRIDAY + timedelta(days=7))
    assert (session.said_yes, session.turns.get().reply, session.day_done_on) == (0, Reply.SILENT, None)
    assert session.week_due == FRIDAY


def test_who_came_has_the_hours_of_the_session_unless_put_right(desk, session, rosa):
    turns = asked(desk, session, rosa, add_helper(desk=desk, name="Ilse"))
    session_actions.came(desk=desk, turn=turns[0])
    session_actions.came(desk=desk, turn=turns[1], minutes=45)
    session.refresh_from_db()
    session_actions.edit_session(desk=desk, session=session, ends=time(15, 30))
    assert sorted(session.turns.values_list("minutes", flat=True)) == [45, 150]


def test_when_who_came_is_noted_the_rest_did_not_and_thanks_are_owed(desk, session, rosa):
    turns = asked(desk, session, rosa, add_helper(desk=desk, name="Ilse"), add_helper(desk=desk, name="Noor"))
    for turn in turns[:2]:
        session_actions.reply(desk=desk, turn=turn, answer=Reply.YES, day=DAY)
    session_actions.came(desk=desk, turn=turns[0])
    session.refresh_from_db()
    before = rows(desk.program)
    session_actions.count(desk=desk, session=session, day=FRIDAY)
    assert [turn.came for turn in session.turns.order_by("pk")] == [True, False, None]
    assert (session.thanks_due, session.short_due, session.day_due) == (FRIDAY, None, None)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_thanks_for_all_who_came_in_one_go(desk, session, rosa):
    session_actions.walked_in(desk=desk, session=session, helper=rosa)
    session.refresh_from_db()
    session_actions.count(desk=desk, session=session, day=FRIDAY)
    assert session_actions.thank(desk=desk, session=session, day=FRIDAY) == 1
    assert (session.thanks_due, session.turns.get().thanked_on) == (None, FRIDAY)


def test_a_session_that_is_called_off_asks_for_nothing_more(desk, session):
    session_actions.call_off(desk=desk, session=session, day=DAY)
    assert session.short_due is None


def test_a_session_planned_before_any_school_day_is_confirmed_on_plain_days(program):
    never = people.make_school(program, "Closed School", weekdays=[])
    planned = plan(replace(people.make_desk(program)), FRIDAY, school=never)
    assert planned.week_due == FRIDAY - timedelta(days=7)
