"""What is agreed, put right, counted and called off; each verb is taken back without a trace."""

from datetime import date

import pytest

from partners.agenda.check_book import differences
from partners.exchanges import actions, count_actions
from partners.exchanges.actions import Given, PlainItems
from partners.exchanges.models import TradeClass
from partners.exchanges.plan_actions import replan
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.promises.models import Part, Settled, Side
from partners.school.actions import add_class, edit_class
from partners.school.approval_actions import add_approval
from tests import people
from tests.exchanges.trades import DAY, DUE, GIVEN_DUE, PACKETS, PLAIN_DUE, POTS, make_trade
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
FRIDAY = date(2026, 10, 9)


@pytest.fixture(autouse=True)
def sound_book(program):
    """Whatever a verb did, what the book keeps ready still follows from the record."""
    yield
    assert differences(program) == []


@pytest.fixture
def trade(desk):
    return make_trade(desk)


@pytest.fixture
def third_grade(desk, trade):
    school = people.make_school(desk.program)
    one = add_class(desk=desk, school=school, label="3-A", grade=3, students=24)
    return TradeClass.objects.create(program=desk.program, trade=trade, school_class=one)


def parts(trade):
    return [(one.part, one.side, one.quantity, one.at_most, one.due) for one in trade.promises.order_by("due", "pk")]


def test_a_trade_is_one_event_and_a_promise_for_each_part(desk, program):
    before = rows(program)
    trade = make_trade(desk, partner="Riverbend Garden Center", minutes_per_item=15)
    assert parts(trade) == [
        (Part.PLAIN, Side.THEM, 275, None, PLAIN_DUE),
        (Part.MAKE, Side.US, 200, 250, DUE),
        (Part.GIVE, Side.THEM, 60, None, GIVEN_DUE),
    ]
    assert (trade.papers_due, trade.approval_settled, trade.minutes_per_item) == (date(2026, 10, 13), False, 15)
    assert str(Event.objects.get()) == "Trade agreed with Riverbend Garden Center: decorated seed packets"
    undo_newest(desk)
    assert rows(program) == before


def test_the_side_that_supplies_plain_items_is_kept_with_its_own_number(desk):
    trade = make_trade(desk, plain=PlainItems(side=Side.US, due=PLAIN_DUE, quantity=300))
    assert (trade.plain.side, trade.plain.quantity, trade.plain.collect) == (Side.US, 300, False)
    assert trade.plain.what == "plain seed packets"
    assert make_trade(desk, plain=None).plain is None


def test_editing_keeps_the_promises_in_step(desk, program, trade):
    pots = trade.side(Part.GIVE)[0]
    before = rows(program)
    gives = [Given(row=pots, what="clay pots", quantity=70, due=GIVEN_DUE), Given(what="soil", due=GIVEN_DUE)]
    plain = PlainItems(side=Side.US, due=PLAIN_DUE)
    actions.edit_trade(desk=desk, trade=trade, what="seed packets", at_least=300, due=DUE, plain=plain, gives=gives)
    said = [(one.what, one.side, one.quantity) for one in trade.promises.order_by("part", "pk")]
    assert said == [
        ("clay pots", "them", 70), ("soil", "them", None), ("seed packets", "us", 300),
        ("plain items for seed packets", "us", 330),
    ]  # fmt: skip
    undo_newest(desk)
    assert rows(program) == before


def test_what_is_no_longer_said_is_taken_out(desk, program, trade):
    pots = trade.side(Part.GIVE)[0]
    before = rows(program)
    gives = [Given(row=pots, what=""), Given(what="soil", due=GIVEN_DUE)]
    actions.edit_trade(desk=desk, trade=trade, at_least=200, due=DUE, plain=None, gives=gives)
    assert sorted(one.what for one in desk.promises.all()) == ["decorated seed packets", "soil"]
    undo_newest(desk)
    assert rows(program) == before


def test_a_smaller_number_settles_what_came_already_and_a_larger_one_opens_it(desk, trade):
    count_actions.deliver_part(desk=desk, promise=trade.make, day=FRIDAY, quantity=150)
    same = {
        "desk": desk,
        "trade": trade,
        "due": DUE,
        "plain": PACKETS,
        "gives": [Given(row=trade.side("give")[0], what="pots", due=DUE)],
    }
    actions.edit_trade(**same, at_least=150)
    assert trade.make.settled_on == FRIDAY
    actions.edit_trade(**same, at_least=151)
    assert trade.make.settled_on is None


def test_a_signed_memo_is_signed_anew_where_its_terms_change(desk, trade):
    actions.sign_memo(desk=desk, trade=trade, day=FRIDAY)
    pots = trade.side(Part.GIVE)[0]
    same = {"at_least": 200, "at_most": 250, "plain": PACKETS, "gives": [Given(row=pots, **as_said(POTS))]}
    actions.edit_trade(desk=desk, trade=trade, due=DUE, note="ring twice", minutes_per_item=30, **same)
    assert trade.memo_signed_on == FRIDAY
    actions.edit_trade(desk=desk, trade=trade, due=date(2026, 12, 11), **same)
    assert (trade.memo_signed_on, trade.papers_due) == (None, date(2026, 10, 13))


def as_said(given):
    return {"what": given.what, "quantity": given.quantity, "due": given.due, "carrier": given.carrier}


def test_two_people_do_not_save_over_each_other(desk, trade):
    with pytest.raises(ChangedMeanwhile):
        actions.edit_trade(desk=desk, trade=trade, at_least=1, due=DUE, gives=[], seen=trade.version - 1)


def test_papers_and_the_show(desk, program, trade):
    school = people.make_school(program)
    yes = add_approval(desk=desk, school=school, what_for="trades", by="Dr. Ruth Okafor", on=DAY)
    before = rows(program)
    actions.approve(desk=desk, trade=trade, approval=yes)
    assert (trade.approval, trade.approval_settled) == (yes, True)
    undo_newest(desk)
    assert rows(program) == before
    trade.refresh_from_db()
    actions.move_show(desk=desk, trade=trade, first=DUE)
    actions.move_show(desk=desk, trade=trade, last=date(2026, 12, 1))
    assert (trade.display_from, trade.display_until) == (date(2026, 12, 1), date(2026, 12, 1))
    actions.put_on_show(desk=desk, trade=trade, day=DUE)
    actions.take_down(desk=desk, trade=trade, day=DUE)
    actions.move_papers(desk=desk, trade=trade, due=DUE)
    assert (trade.shown_on, trade.taken_down_on, trade.papers_due) == (DUE, DUE, DUE)


def test_calling_off_leaves_nothing_due(desk, program, trade, third_grade):
    edit_class(desk=desk, school_class=third_grade.school_class, meets_on=[1], minutes=40)
    replan(desk=desk, trade=trade)
    third_grade.refresh_from_db()
    assert third_grade.start_on == date(2026, 11, 3)
    count_actions.deliver_part(desk=desk, promise=trade.plain, day=FRIDAY, quantity=40)
    before = rows(program)
    actions.call_off(desk=desk, trade=trade, day=FRIDAY)
    ended = {one.part: one.settled_how for one in desk.promises.all()}
    assert ended == {"make": Settled.SKIPPED, "plain": Settled.THAT_WAS_ALL, "give": Settled.SKIPPED}
    third_grade.refresh_from_db()
    assert (trade.called_off_on, third_grade.start_on) == (FRIDAY, None)
    undo_newest(desk)
    assert rows(program) == before


def test_counting_sums_up_and_begins_the_class(desk, program, third_grade):
    count_actions.tally(desk=desk, trade_class=third_grade, day=FRIDAY, done=5)
    second = count_actions.tally(desk=desk, trade_class=third_grade, day=FRIDAY, done=3, spoiled=1)
    counted = rows(program)
    third_grade.refresh_from_db()
    assert (third_grade.done, third_grade.spoiled, third_grade.started_on) == (8, 1, FRIDAY)
    count_actions.take_back_tally(desk=desk, tally=second)
    third_grade.refresh_from_db()
    assert (third_grade.done, third_grade.spoiled, third_grade.started_on) == (5, 0, FRIDAY)
    undo_newest(desk)
    assert rows(program) == counted


def test_the_only_count_taken_back_is_no_beginning(desk, third_grade):
    only = count_actions.tally(desk=desk, trade_class=third_grade, day=FRIDAY, spoiled=1)
    count_actions.take_back_tally(desk=desk, tally=only)
    third_grade.refresh_from_db()
    assert (third_grade.spoiled, third_grade.started_on) == (0, None)


def test_it_is_settled_when_the_last_part_is(desk, trade):
    for promise in trade.promises.exclude(part=Part.GIVE):
        count_actions.deliver_part(desk=desk, promise=promise, day=FRIDAY, quantity=promise.quantity)
    assert trade.settled_on is None
    count_actions.close_part(desk=desk, promise=trade.side(Part.GIVE)[0], day=DUE, all_of_it=True)
    assert trade.settled_on == DUE
    undo_newest(desk)
    count_actions.close_part(desk=desk, promise=trade.side(Part.GIVE)[0], day=DUE, all_of_it=False)
    assert trade.side(Part.GIVE)[0].settled_how == Settled.NEVER_CAME


def test_once_all_is_handed_over_the_last_plain_items_are_not_waited_for(desk, program, trade):
    count_actions.deliver_part(desk=desk, promise=trade.plain, day=DAY, quantity=274)
    count_actions.deliver_part(desk=desk, promise=trade.make, day=FRIDAY, quantity=150)
    assert trade.plain.settled_how == ""
    before = rows(program)
    count_actions.deliver_part(desk=desk, promise=trade.make, day=FRIDAY, quantity=50)
    assert (trade.plain.settled_how, trade.plain.delivered) == (Settled.THAT_WAS_ALL, 274)
    undo_newest(desk)
    assert rows(program) == before


def test_one_part_moves_to_another_day(desk, trade):
    count_actions.move_part(desk=desk, promise=trade.make, due=FRIDAY)
    assert trade.make.due == FRIDAY
