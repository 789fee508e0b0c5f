"""What can be done with visits, asks and follow-ups; every verb is taken back without a trace."""

from __future__ import annotations

from datetime import date

import pytest

from partners.agenda.check_book import differences
from partners.directory.models import Partner
from partners.school.models import SchoolDays
from partners.visits import actions
from partners.visits.models import Answer, Ask, FollowUp, Visit
from tests.people import TUESDAY, make_partner, make_school
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

WEEK_LATER = date(2026, 10, 13)


@pytest.fixture
def partner(desk):
    return make_partner(desk.program)


@pytest.fixture
def ask(desk, partner):
    return actions.record_ask(desk=desk, partner=partner, what="terracotta pots", asked_on=TUESDAY)


def close(program, day):
    school = make_school(program)
    SchoolDays.objects.create(program=program, school=school, first=day, last=day, title="closed")
    return school


def test_a_visit_is_heard_of_and_taken_back(desk, partner):
    before = rows(desk.program)
    visit = actions.record_visit(desk=desk, partner=partner, happened="hello", day=TUESDAY, note="Nice window.")
    assert (visit.by, visit.how, Partner.objects.get().last_heard_on) == ("June Castellanos", "in_person", TUESDAY)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_an_ask_waits_with_a_day_to_look_after_it(desk, partner):
    before = rows(desk.program)
    ask = actions.record_ask(desk=desk, partner=partner, what="pots", asked_on=TUESDAY, quantity=40)
    assert (ask.answer, ask.look_on, ask.quantity) == (Answer.WAITING, WEEK_LATER, 40)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_a_visit_of_6_october_2026_with_13_october_closed_is_followed_up_on_14_october(desk, partner):
    """The check value of the project's own figures: seven days later, moved on to a school day."""
    close(desk.program, WEEK_LATER)
    follow_up = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    assert follow_up.due == date(2026, 10, 14)


def test_a_school_of_its_own_counts_on_its_own_calendar(desk, partner):
    closed = close(desk.program, WEEK_LATER)
    make_school(desk.program, "North Ridge Elementary")
    together = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    own = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, school=closed)
    assert (together.due, own.due) == (WEEK_LATER, date(2026, 10, 14))


def test_a_day_they_named_is_kept_on_a_school_day(desk, ask, partner):
    saturday = date(2026, 10, 24)
    follow_up = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask, named_day=saturday)
    assert (follow_up.due, follow_up.named_day, follow_up.what) == (date(2026, 10, 26), True, "terracotta pots")


def test_a_planned_follow_up_takes_the_place_of_looking_after_the_ask(desk, ask, partner):
    before = rows(desk.program)
    actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)
    assert Ask.objects.get().look_on is None
    undo_newest(desk)
    assert rows(desk.program) == before


def test_an_ask_has_one_open_follow_up_that_is_planned_anew(desk, ask, partner):
    first = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)
    again = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask, named_day=date(2026, 11, 2))
    assert (again.pk, FollowUp.objects.get().due) == (first.pk, date(2026, 11, 2))


def test_the_first_follow_up_done_plans_the_last_fourteen_days_after_it_was_done(desk, ask, partner):
    first = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)
    before = rows(desk.program)
    actions.follow_up_done(desk=desk, follow_up=first, day=date(2026, 10, 15), outcome="call again")
    last = FollowUp.objects.open().get()
    assert (last.number, last.base, last.due) == (2, date(2026, 10, 15), date(2026, 10, 29))
    undo_newest(desk)
    assert rows(desk.program) == before


def test_after_the_last_follow_up_the_ask_is_looked_after_and_not_followed_up_again(desk, ask, partner):
    first = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)
    actions.follow_up_done(desk=desk, follow_up=first, day=WEEK_LATER)
    before = rows(desk.program)
    actions.follow_up_done(desk=desk, follow_up=FollowUp.objects.open().get(), day=date(2026, 10, 27))
    assert (FollowUp.objects.open().count(), Ask.objects.get().look_on) == (0, date(2026, 11, 3))
    undo_newest(desk)
    assert rows(desk.program) == before


def test_going_back_without_an_ask_is_done_once(desk, partner):
    plain = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    actions.follow_up_done(desk=desk, follow_up=plain, day=WEEK_LATER)
    assert not FollowUp.objects.open().exists()


@pytest.mark.parametrize("answer", [Answer.YES, Answer.SOME, Answer.NO])
def test_an_answer_closes_what_was_planned(desk, ask, partner, answer):
    actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)
    before = rows(desk.program)
    actions.answer_ask(desk=desk, ask=ask, answer=answer, day=WEEK_LATER, reason="new owner")
    stored = Ask.objects.get()
    assert (stored.answer, stored.answered_on, stored.look_on) == (answer, WEEK_LATER, None)
    assert FollowUp.objects.get().done_on == WEEK_LATER
    assert differences(desk.program) == []
    undo_newest(desk)
    assert rows(desk.program) == before


def test_waiting_is_no_answer(desk, ask):
    with pytest.raises(ValueError, match="Waiting"):
        actions.answer_ask(desk=desk, ask=ask, answer=Answer.WAITING, day=WEEK_LATER)


def test_no_reply_lets_the_partner_rest_until_the_same_month_next_year(desk, ask):
    before = rows(desk.program)
    actions.no_reply(desk=desk, ask=ask, day=date(2026, 11, 5))
    assert (Ask.objects.get().answer, Partner.objects.get().rest_until) == ("no_reply", date(2027, 10, 1))
    undo_newest(desk)
    assert rows(desk.program) == before


def test_a_moved_follow_up_stays_where_it_was_put(desk, partner):
    plain = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    before = rows(desk.program)
    actions.move_follow_up(desk=desk, follow_up=plain, due=date(2026, 11, 3))
    assert (FollowUp.objects.get().due, FollowUp.objects.get().named_day) == (date(2026, 11, 3), True)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_looking_after_an_ask_is_moved(desk, ask):
    before = rows(desk.program)
    actions.move_look(desk=desk, ask=ask, due=date(2026, 11, 3))
    assert Ask.objects.get().look_on == date(2026, 11, 3)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_the_name_under_a_visit_is_that_of_who_is_signed_in(program, june, partner):
    from dataclasses import replace

    from tests.people import make_desk

    signed_in = replace(make_desk(program), user=june.user)
    actions.record_visit(desk=signed_in, partner=partner, happened="hello", day=TUESDAY)
    assert Visit.objects.get().by == "June"
