"""What is taken back is counted anew: calendars, figures and later words may have changed since."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from partners.agenda.actions import close_days, take_back
from partners.agenda.check_book import differences
from partners.agenda.stored_days import ALONE, PLANNED_BY
from partners.ground.models import Event
from partners.ground.undo import CannotUndo
from partners.program.desk import Desk, row_names
from partners.program.models import Membership
from partners.school.models import School
from partners.visits.actions import follow_up_done, plan_follow_up, record_visit
from tests import people

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture
def school(june: Membership) -> School:
    return people.make_school(june.program)


@pytest.fixture
def own(june: Membership, school: School) -> Desk:
    return people.make_desk(june.program, user=june.user)


def visited(desk: Desk, day: date = DAY) -> Any:
    return plan_follow_up(desk=desk, partner=people.make_partner(desk.program), base=day)


def due(row: Any, name: str = "due") -> date:
    row.refresh_from_db()
    found: date = getattr(row, name)
    return found


def test_what_was_counted_meanwhile_is_counted_anew_when_a_closure_is_undone(own: Desk, school: School) -> None:
    stretch = (date(2026, 10, 13), date(2026, 10, 13), "closed", "")
    close_days(desk=own, school=school, stretches=[stretch])
    event = Event.objects.latest("pk")
    follow_up = visited(own)
    take_back(desk=own, event=event)
    assert due(follow_up) == date(2026, 10, 13)
    assert differences(own.program) == []


def test_what_is_taken_back_is_counted_over_the_calendar_of_now(own: Desk, school: School) -> None:
    follow_up = visited(own)
    follow_up_done(desk=own, follow_up=follow_up, day=DAY)
    done = Event.objects.latest("pk")
    close_days(desk=own, school=school, stretches=[(date(2026, 10, 13), date(2026, 10, 13), "closed", "")])
    take_back(desk=own, event=done)
    assert due(follow_up) == date(2026, 10, 14)
    assert differences(own.program) == []


def test_an_earlier_visit_is_remembered_when_a_later_one_is_taken_back(own: Desk) -> None:
    partner = people.make_partner(own.program)
    record_visit(desk=own, partner=partner, happened="hello", day=DAY)
    later = Event.objects.latest("pk")
    record_visit(desk=own, partner=partner, happened="hello", day=DAY - timedelta(days=3))
    take_back(desk=own, event=later)
    assert due(partner, "last_heard_on") == DAY - timedelta(days=3)
    assert differences(own.program) == []


def test_a_change_is_taken_back_once(own: Desk) -> None:
    visited(own)
    event = Event.objects.latest("pk")
    take_back(desk=own, event=event)
    with pytest.raises(CannotUndo):
        take_back(desk=own, event=event)


def test_what_is_left_out_when_a_change_is_undone_is_known_by_the_names_of_its_rows() -> None:
    assert {model._meta.model_name for model in row_names().values()} >= ALONE | PLANNED_BY
