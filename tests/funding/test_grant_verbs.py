"""A grant from the application to the report: what each step writes, and that each can be taken back."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.agenda.lines import due_lines
from partners.funding import grant_actions as actions
from partners.funding.grant_actions import LineEdit
from partners.funding.grant_models import Grant, GrantState
from partners.funding.grant_story import lines
from partners.gifts.models import ThanksFor
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.ground.plain import PlainError
from partners.school.approval_models import AcceptanceRule
from tests import whole_book
from tests.people import TUESDAY, make_school

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)
CLAY = LineEdit(what="clay", planned_cents=30_000, shipping_cents=6_000)
TOOLS = LineEdit(what="tools", planned_cents=14_000)


@pytest.fixture
def asked(desk):
    grant = actions.write_grant(
        desk=desk, partner="Alder Falls Education Fund", title="clay tiles", lines=[CLAY, TOOLS]
    )
    return actions.ask_for(desk=desk, grant=grant, asked_on=TUESDAY, asked_cents=50_000, answer_by=None)


@pytest.fixture
def awarded(desk, asked):
    terms = {"buy_from": TUESDAY, "spend_by": TUESDAY + 90 * DAY}
    return actions.award(desk=desk, grant=asked, answered_on=TUESDAY, awarded_cents=50_000, **terms)


def undo_last(desk):
    return take_back(desk=desk, event=Event.objects.latest("pk"))


def test_a_new_grantmaker_comes_with_the_application_as_one_change(desk):
    before = whole_book.rows(desk.program)
    grant = actions.write_grant(desk=desk, partner="Harbor Light Fund", title="frames", lines=[CLAY, TOOLS])
    assert (grant.partner.kind, [line.position for line in grant.lines.all()]) == ("grantmaker", [1, 2])
    undo_last(desk)
    assert whole_book.rows(desk.program) == before


def test_an_award_owes_thanks_and_taken_back_owes_none(desk, asked):
    before = whole_book.rows(desk.program)
    actions.award(desk=desk, grant=asked, answered_on=TUESDAY, awarded_cents=40_000)
    owed = desk.thanks.get()
    assert (owed.reason, owed.grant, owed.base) == (ThanksFor.GRANT, asked, TUESDAY)
    assert differences(desk.program) == []
    undo_last(desk)
    assert whole_book.rows(desk.program) == before


def test_after_a_no_the_grantmaker_rests_and_is_thanked_for_considering(desk, asked):
    """As after any no: until the first of the month of the ask, one year later."""
    actions.refuse(desk=desk, grant=asked, answered_on=TUESDAY + DAY, reason="materials only")
    asked.partner.refresh_from_db()
    assert asked.partner.rest_until == date(TUESDAY.year + 1, TUESDAY.month, 1)
    assert desk.thanks.get().reason == ThanksFor.CONSIDERING
    assert differences(desk.program) == []
    undo_last(desk)
    asked.partner.refresh_from_db()
    assert (asked.partner.rest_until, desk.thanks.count()) == (None, 0)


def test_a_step_is_taken_only_in_its_turn(desk, asked):
    with pytest.raises(ChangedMeanwhile):
        actions.ask_for(desk=desk, grant=asked, asked_on=TUESDAY, asked_cents=1, answer_by=None)
    with pytest.raises(PlainError):
        actions.drop_grant(desk=desk, grant=asked)


def test_another_day_of_the_award_moves_the_thanks_and_the_last_word(desk, awarded):
    actions.correct_award(desk=desk, grant=awarded, answered_on=TUESDAY + 7 * DAY, awarded_cents=45_000)
    owed = desk.thanks.get()
    awarded.partner.refresh_from_db()
    assert (owed.base, awarded.partner.last_heard_on) == (TUESDAY + 7 * DAY, TUESDAY + 7 * DAY)
    assert differences(desk.program) == []


def test_a_change_keeps_what_was_who_agreed_and_when(desk, awarded):
    clay, tools = awarded.lines.all()
    agreed = {"agreed_by": "Ada Quill", "agreed_on": TUESDAY}
    one = actions.agree_change(
        desk=desk, grant=awarded, line=clay, becomes="glaze", to_line=tools, moved_cents=36_000, **agreed
    )
    assert (one.was, one.words) == ("clay", "clay becomes glaze, $360.00 from glaze to tools")
    with pytest.raises(PlainError, match=r"\$0\.00 is left"):
        actions.agree_change(desk=desk, grant=awarded, line=clay, to_line=tools, moved_cents=1, **agreed)
    undo_last(desk)
    assert list(awarded.lines.values_list("what", flat=True)) == ["clay", "tools"]


def test_lines_are_changed_taken_out_and_added(desk, asked):
    clay, tools = asked.lines.all()
    edits = [LineEdit(what="", row=clay), LineEdit(what="glaze", planned_cents=100), LineEdit(what="tools", row=tools)]
    actions.edit_grant(desk=desk, grant=asked, lines=edits)
    assert list(asked.lines.values_list("what", "position")) == [("glaze", 1), ("tools", 2)]


def test_the_story_tells_every_step(desk, awarded):
    actions.claim(desk=desk, grant=awarded, day=TUESDAY)
    actions.report(desk=desk, grant=awarded, day=TUESDAY)
    assert [line.what for line in lines(desk, awarded.partner)] == [
        "We asked for a grant of $500.00: clay tiles",
        "They awarded $500.00: clay tiles",
        "We claimed the grant: clay tiles",
        "We reported on the grant: clay tiles",
    ]


def test_a_check_of_the_book_finds_sums_that_differ(desk, awarded):
    Grant.objects.filter(pk=awarded.pk, state=GrantState.AWARDED).update(spent_cents=5)
    assert differences(desk.program) == [f"grant {awarded.pk}: spent_cents is 5, should be 0"]


def test_an_award_above_the_schools_threshold_waits_for_its_board(desk, asked):
    school = make_school(desk.program)
    AcceptanceRule.objects.create(program=desk.program, school=school, from_cents=40_000, who="the school board")
    actions.edit_grant(desk=desk, grant=asked, school=school)
    grant = actions.award(desk=desk, grant=asked, answered_on=TUESDAY, awarded_cents=50_000)
    # Ten school days after October 6, 2026, Monday to Friday, counted on a wall calendar.
    assert (grant.accept_by_whom, grant.accept_due) == ("the school board", date(2026, 10, 20))
    (line,) = [one for one in due_lines(desk, until=date(2026, 11, 1), limit=9) if one.source == "funding.accept"]
    assert (line.who, line.what) == ("the school board", "to accept $500.00 from Alder Falls Education Fund")
    actions.correct_award(desk=desk, grant=grant, awarded_cents=30_000)
    assert (grant.accept_by_whom, grant.accept_due) == ("", None)
    actions.correct_award(desk=desk, grant=grant, awarded_cents=45_000)
    actions.accept_award(desk=desk, grant=grant, day=TUESDAY)
    actions.correct_award(desk=desk, grant=grant, awarded_cents=30_000)
    assert grant.accept_by_whom == "the school board"
    assert differences(desk.program) == []
