"""Who must say yes, whether somebody did, when to ask again, and what goes with a principal who leaves."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from partners.agenda.actions import close_days, take_back
from partners.agenda.check_book import differences
from partners.agenda.lines import SOURCES
from partners.asking.gather import situation
from partners.asking.may_ask import may_ask
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.school.approval_actions import (
    add_approval,
    add_procedure,
    edit_procedure,
    holds_again,
    lapse_approvals,
    remove_procedure,
)
from partners.school.approval_models import Approval, ApprovalFor
from partners.school.approvals import held, lacking, needed, standing
from partners.school.models import School
from partners.school.new_principal import likely_theirs, somebody_else
from partners.visits.actions import figures
from tests import people

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
END = date(2027, 6, 18)


@pytest.fixture
def school(desk: Desk) -> School:
    return people.make_school(desk.program, principal="Dr. Ruth Okafor")


def yes(desk: Desk, school: School, what_for: str = "asking", **values: Any) -> Approval:
    given: dict[str, Any] = {"by": "Dr. Ruth Okafor", "on": DAY - timedelta(days=30), "until": END, **values}
    return add_approval(desk=desk, school=school, what_for=what_for, **given)


def due(desk: Desk, slug: str) -> list[tuple[str, date, str]]:
    source = next(one for one in SOURCES if one.slug == slug)
    return [(line.who, line.due, str(line.why)) for line in source.page(desk, until=desk.day, limit=10)]


@pytest.mark.parametrize(
    ("former", "now", "another"),
    [
        ("Dr. Ruth Okafor", "Ms. Ida Brandvold", True),
        ("R. Okafor", "Dr. Ruth Okafor", False),
        ("Dr. Ruth Okafor", "dr ruth okafor", False),
        ("Dr. Ruth Okafor", "", True),
        ("", "Ms. Ida Brandvold", False),
    ],
)
def test_a_name_put_right_is_no_new_principal(former: str, now: str, another: bool) -> None:
    assert somebody_else(former, now) is another


def test_what_the_former_principal_gave_is_known_by_name_or_by_office() -> None:
    said = ["Dr. Okafor", "Ruth Okafor, principal", "the principal", "the school board", "Okaforova"]
    assert [likely_theirs(by, "Dr. Ruth Okafor") for by in said] == [True, True, True, False, False]


def test_a_yes_is_held_from_its_day_to_its_end_and_lapses_with_who_gave_it(desk: Desk, school: School) -> None:
    row = yes(desk, school, on=DAY, until=DAY + timedelta(days=9))
    days = [DAY - timedelta(days=1), DAY, row.until, DAY + timedelta(days=10)]
    assert [held(desk, school, "asking", day) == row for day in days if day] == [False, True, True, False]
    lapse_approvals(desk=desk, school=school, approvals=[row], day=DAY)
    assert held(desk, school, "asking", DAY) is None
    holds_again(desk=desk, approval=row)
    assert held(desk, school, "asking", DAY) == row


def test_what_is_said_where_work_begins(desk: Desk, school: School) -> None:
    begins = DAY + timedelta(days=28)
    assert lacking(desk, school, "grants", begins) is None
    add_procedure(desk=desk, school=school, what_for="grants", who="the board", form="form B", days_ahead=10)
    told = lacking(desk, None, "grants", begins)
    assert told is not None
    assert told.sentence == (
        "At Millrace Elementary, the board must say yes to applying for grants; form: form B; ask by October 20, 2026."
    )
    late = lacking(desk, school, "grants", DAY + timedelta(days=1))
    assert late is not None
    assert "ask at once, September 23, 2026 would have been in time" in late.sentence
    yes(desk, school, "grants", by="the board")
    assert lacking(desk, school, "grants", begins) is None


def test_what_is_needed_anew_each_time_is_held_by_no_standing_yes(desk: Desk, school: School) -> None:
    add_procedure(desk=desk, school=school, what_for="buying", who="the office", each_time=True)
    row = yes(desk, school, "buying", until=DAY)
    told = standing(desk, school, "buying")
    assert told is not None
    assert (told.holds, told.lacks, told.heading) == (False, True, "Needs a yes each time")
    assert (row.ask_on, due(desk, "school.approval")) == (None, [])


def test_the_day_to_ask_again_follows_the_procedure_the_calendar_and_undo(desk: Desk, school: School) -> None:
    end = DAY + timedelta(days=14)
    row = yes(desk, school, until=end)
    assert (row.ask_on, due(desk, "school.approval")) == (end, [])
    procedure = add_procedure(desk=desk, school=school, what_for="asking", who="the principal", days_ahead=10)
    assert due(desk, "school.approval") == [("Dr. Ruth Okafor", DAY, "this approval ends on October 20")]
    closed = [(DAY + timedelta(days=1), DAY + timedelta(days=1), "closed", "Storm")]
    close_days(desk=desk, school=school, stretches=closed)
    assert Approval.objects.get().ask_on == DAY - timedelta(days=1)
    edit_procedure(desk=desk, procedure=procedure, days_ahead=0)
    assert Approval.objects.get().ask_on == end
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert Approval.objects.get().ask_on == DAY - timedelta(days=1)
    remove_procedure(desk=desk, procedure=procedure)
    assert Approval.objects.get().ask_on == end
    assert differences(desk.program) == []


def test_a_lapsed_yes_is_asked_of_the_new_principal_until_there_is_another(desk: Desk, school: School) -> None:
    row = yes(desk, school)
    lapse_approvals(desk=desk, school=school, approvals=[row], day=DAY)
    assert due(desk, "school.lapsed") == [("Dr. Ruth Okafor", DAY, "the yes of Dr. Ruth Okafor no longer holds")]
    assert due(replace(desk, day=END), "school.approval") == []
    yes(desk, school, by="Ms. Ida Brandvold", on=DAY)
    assert due(desk, "school.lapsed") == []
    assert differences(desk.program) == []


def test_asking_follows_what_is_written_down_and_what_lapsed(desk: Desk, school: School) -> None:
    partner = people.make_partner(desk.program)
    School.objects.update(asking_needs_approval=False)

    def allowed() -> bool:
        return may_ask(situation(desk, partner), DAY, figures(desk)).allowed

    assert allowed()
    add_procedure(desk=desk, school=school, what_for=ApprovalFor.ASKING, who="the principal")
    assert not allowed()
    row = yes(desk, school)
    assert allowed()
    lapse_approvals(desk=desk, school=school, approvals=[row], day=DAY)
    assert not allowed()
    assert needed(desk, school, "asking") is not None
