"""Visits, asks and follow-ups in a partner's story."""

from __future__ import annotations

from datetime import date

import pytest

from partners.directory.actions import add_contact, add_partner
from partners.visits import actions, story
from tests.people import TUESDAY

pytestmark = pytest.mark.django_db
WEEK_LATER = date(2026, 10, 13)


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center")


def told(desk, partner):
    return sorted(story.lines(desk, partner), key=lambda line: (line.day, line.written_at))


def test_a_visit_says_how_whom_what_was_asked_and_keeps_the_note_apart(desk, partner):
    dana = add_contact(desk=desk, partner=partner, name="Dana Whitlock")
    said = {"happened": "maybe", "day": TUESDAY, "contact": dana, "sheet_left": True, "note": "After lunch."}
    visit = actions.record_visit(desk=desk, partner=partner, **said)
    actions.record_ask(desk=desk, partner=partner, what="pots", quantity=40, asked_on=TUESDAY, visit=visit)
    (line,) = told(desk, partner)
    assert line.what == "Visit in person: Maybe"
    assert line.detail == "Dana Whitlock, asked for 40 pots (waiting), sheet left, June Castellanos"
    assert (line.private, line.url, line.open) == ("After lunch.", visit.get_absolute_url(), True)


def test_an_answer_that_came_without_a_visit_has_a_line_of_its_own(desk, partner):
    ask = actions.record_ask(desk=desk, partner=partner, what="yarn", asked_on=TUESDAY)
    actions.answer_ask(desk=desk, ask=ask, answer="no", day=WEEK_LATER, reason="new owner")
    asked, answered = told(desk, partner)
    assert (asked.what, asked.open) == ("We asked for yarn", False)
    assert (answered.day, answered.what, answered.private) == (WEEK_LATER, "Their answer about yarn: no", "new owner")


def test_a_follow_up_is_told_once_it_is_made(desk, partner):
    plan = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    assert told(desk, partner) == []
    actions.follow_up_done(desk=desk, follow_up=plan, day=WEEK_LATER, outcome="call in spring")
    (line,) = told(desk, partner)
    assert (line.day, line.what, line.private) == (WEEK_LATER, "We came back to it: as we said", "call in spring")


def test_nothing_of_another_partner_is_told(desk, partner):
    other = add_partner(desk=desk, name="Bluebird Bakery")
    actions.record_visit(desk=desk, partner=other, happened="hello", day=TUESDAY)
    assert story.lines(desk, partner) == []
