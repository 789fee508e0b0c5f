"""Follow-ups that are due, and asks to look after: how they read, and how they are settled."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from partners.agenda.check_book import differences
from partners.directory.actions import add_partner
from partners.ground.due import Hand
from partners.visits import actions
from partners.visits.due import SOURCES
from partners.visits.models import Ask, FollowUp
from tests.people import TUESDAY, make_school
from tests.query_plan import plan_of
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
FOLLOW_UPS, TO_LOOK_AFTER = SOURCES
WEEK_LATER = date(2026, 10, 13)


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="(201) 555-0110")


@pytest.fixture
def ask(desk, partner):
    return actions.record_ask(desk=desk, partner=partner, what="terracotta pots", asked_on=TUESDAY)


@pytest.fixture
def planned(desk, partner, ask):
    return actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, ask=ask)


def lines(source, desk, until=date(2027, 6, 30)):
    return source.page(desk, until=until, limit=10)


def carry_out(desk, source, code, **values):
    at = replace(desk, day=WEEK_LATER)
    (line,) = lines(source, at)
    source.settle[code](desk=at, row=source.rows(at).get(pk=line.pk), day=at.day, **values)
    assert differences(desk.program) == []


def test_a_follow_up_says_what_to_do_where_and_whom_to_call(desk, planned, partner):
    (line,) = lines(FOLLOW_UPS, desk)
    assert (line.hand, str(line.verb), line.who, line.what) == (
        Hand.CALL,
        "Ask again at",
        partner.name,
        "terracotta pots",
    )
    assert (line.due, line.phone, line.why) == (WEEK_LATER, "(201) 555-0110", "asked on October 6")
    assert line.acts[0].url == f"/visits/new/?partner={partner.pk}&how=phone"
    assert [act.code for act in line.acts[1:]] == ["done", "move", "not_this_month", "no_reply"]


def test_the_last_follow_up_says_that_it_is_the_last(desk, planned):
    actions.follow_up_done(desk=desk, follow_up=planned, day=WEEK_LATER)
    assert lines(FOLLOW_UPS, desk)[0].why == "the last time; after it, let it rest"


def test_going_back_without_an_ask_has_no_reply_to_miss(desk, partner):
    actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY, named_day=date(2026, 10, 20))
    (line,) = lines(FOLLOW_UPS, desk)
    assert (str(line.verb), line.why) == ("Go back to", "they named this day; first spoken of on October 6")
    assert "no_reply" not in [act.code for act in line.acts]


def test_where_nothing_was_asked_no_ask_is_spoken_of(desk, partner):
    actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    assert lines(FOLLOW_UPS, desk)[0].why == "the visit was on October 6"


def test_a_waiting_ask_without_a_follow_up_is_never_forgotten(desk, ask, partner):
    (line,) = lines(TO_LOOK_AFTER, desk)
    assert (line.due, str(line.verb), line.who, line.why) == (
        WEEK_LATER,
        "No answer yet from",
        partner.name,
        "asked on October 6",
    )
    assert [act.code for act in line.acts[1:]] == ["no_reply", "move", "not_this_month"]


def test_an_ask_with_a_follow_up_stands_in_one_list_only(desk, planned):
    assert (len(lines(FOLLOW_UPS, desk)), len(lines(TO_LOOK_AFTER, desk))) == (1, 0)


def test_done_plans_the_last_one(desk, planned):
    before = rows(desk.program)
    carry_out(desk, FOLLOW_UPS, "done")
    assert FollowUp.objects.open().get().due == date(2026, 10, 27)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_a_follow_up_is_moved(desk, planned):
    carry_out(desk, FOLLOW_UPS, "move", due=date(2026, 10, 21))
    assert FollowUp.objects.get().due == date(2026, 10, 21)


def test_no_reply_lets_it_rest(desk, planned, partner):
    before = rows(desk.program)
    carry_out(desk, FOLLOW_UPS, "no_reply")
    partner.refresh_from_db()
    assert (Ask.objects.get().answer, partner.rest_until) == ("no_reply", date(2027, 10, 1))
    undo_newest(desk)
    assert rows(desk.program) == before


def test_no_reply_on_going_back_only_closes_it(desk, partner):
    plan = actions.plan_follow_up(desk=desk, partner=partner, base=TUESDAY)
    FOLLOW_UPS.settle["no_reply"](desk=desk, row=plan, day=WEEK_LATER)
    partner.refresh_from_db()
    assert (FollowUp.objects.get().outcome, partner.rest_until) == ("no reply", None)


def test_an_ask_to_look_after_is_let_go_or_moved(desk, ask):
    carry_out(desk, TO_LOOK_AFTER, "move", due=date(2026, 10, 30))
    assert Ask.objects.get().look_on == date(2026, 10, 30)
    carry_out(desk, TO_LOOK_AFTER, "no_reply")
    assert Ask.objects.get().answer == "no_reply"


def test_a_school_of_their_own_is_named(desk, partner):
    school = make_school(desk.program)
    actions.record_ask(desk=desk, partner=partner, what="yarn", asked_on=TUESDAY, school=school)
    assert lines(TO_LOOK_AFTER, desk)[0].school == school.name


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.slug)
def test_a_page_is_found_by_its_index_without_sorting(desk, source):
    steps = plan_of(lambda: source.page(desk, until=TUESDAY, limit=20, after=(TUESDAY, 3)))
    assert "USING INDEX followup_due" in steps or "USING INDEX ask_look" in steps
    assert "TEMP B-TREE" not in steps
