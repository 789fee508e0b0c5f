"""What is due of what each side promised."""

from dataclasses import replace
from datetime import date, time

import pytest

from partners.ground.due import Hand
from partners.promises import actions, due, story
from partners.promises.models import Side
from tests import people
from tests.query_plan import plan_of

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
FRIDAY = date(2026, 10, 9)
OURS = due.SOURCES[0]


@pytest.fixture
def garden(program):
    return people.make_partner(program, phone="+12015550123")


def promised(desk, partner, side=Side.THEM, **values):
    given = {"what": "terracotta pots", "quantity": 60, "due": FRIDAY, "made_on": DAY, **values}
    return actions.promise(desk=desk, partner=partner, side=side, **given)


def only(source, desk, day=DAY):
    (line,) = source.page(replace(desk, day=day), until=date(2027, 6, 30), limit=5)
    return line


def test_a_promise_of_theirs_is_collected(desk, program, garden):
    school = people.make_school(program)
    promised(desk, garden, due_hour=time(15, 0), school=school)
    line = only(due.THEIRS, desk)
    assert (line.hand, str(line.verb), line.what) == (Hand.COLLECT, "Collect from", "60 terracotta pots")
    assert (line.who, line.phone, line.school, line.hour) == (garden.name, "+12015550123", school.name, time(15, 0))
    assert (line.key, line.why) == (f"promises-theirs-{desk.promises.get().pk}", "promised on October 6")


def test_what_they_bring_is_called_about_only_when_past_its_day(desk, garden):
    promised(desk, garden, collect=False)
    assert only(due.THEIRS, desk, FRIDAY).hand == Hand.COLLECT
    assert only(due.THEIRS, desk, date(2026, 10, 10)).hand == Hand.CALL


def test_the_line_says_what_came_so_far_and_an_amount(desk, garden):
    actions.deliver(desk=desk, promise=promised(desk, garden), day=DAY, quantity=20)
    assert only(due.THEIRS, desk).why == "promised on October 6; 20 came, 40 to come"
    promised(desk, garden, Side.US, what="a card", quantity=None, amount_cents=2500)
    assert only(OURS, desk).what == "$25.00, a card"


def test_only_a_standing_offer_can_be_skipped(desk, garden):
    promised(desk, garden)
    assert "skip" not in [act.code for act in only(due.THEIRS, desk).acts]
    desk.promises.get().delete()
    actions.make_offer(desk=desk, partner=garden, what="tubes", first_on=FRIDAY, every="week")
    assert "skip" in [act.code for act in only(due.THEIRS, desk).acts]


@pytest.mark.parametrize(("code", "how"), [("that_was_all", "that_was_all"), ("never_came", "never_came")])
def test_each_way_to_settle_closes_it(desk, garden, code, how):
    one = promised(desk, garden)
    due.THEIRS.settle[code](desk=desk, row=one, day=DAY)
    assert one.settled_how == how
    assert not due.THEIRS.page(desk, until=FRIDAY, limit=5)


def test_skip_move_and_handing_over(desk, garden):
    actions.make_offer(desk=desk, partner=garden, what="tubes", first_on=FRIDAY, every="week")
    due.THEIRS.settle["skip"](desk=desk, row=desk.promises.get(), day=DAY)
    following = desk.promises.open().get()
    due.THEIRS.settle["move"](desk=desk, row=following, day=DAY, due=date(2026, 10, 19))
    assert following.due == date(2026, 10, 19)
    ours = promised(desk, garden, Side.US)
    OURS.settle["done"](desk=desk, row=ours, day=DAY)
    assert (ours.delivered, ours.settled_on) == (60, DAY)


@pytest.mark.parametrize("source", [due.THEIRS, OURS], ids=lambda source: source.slug)
def test_a_page_of_lines_is_an_index_search_without_a_sort(desk, source):
    plan = plan_of(lambda: source.page(desk, until=FRIDAY, limit=50, after=(DAY, 7)))
    assert "promise_due" in plan
    assert "TEMP B-TREE" not in plan


def test_a_story_tells_promises_of_both_sides_and_what_was_handed_over(desk, garden):
    promised(desk, garden)
    ours = promised(desk, garden, Side.US, what="seed packets")
    actions.deliver(desk=desk, promise=ours, day=FRIDAY, quantity=60)
    told = {(line.side, line.what, line.open) for line in story.lines(desk, garden)}
    assert told == {
        ("them", "60 terracotta pots", True),
        ("us", "60 seed packets", False),
        ("", "We handed over 60 seed packets", False),
    }
