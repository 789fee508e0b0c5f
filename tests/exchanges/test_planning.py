"""The plan of a trade from the record: who takes part, shares that stay right, starts that move with the calendar."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from partners.agenda.actions import close_days, edit_school, take_back
from partners.agenda.check_book import differences
from partners.agenda.class_actions import edit_class, lose_lessons, remove_class
from partners.exchanges import plan_actions as plans
from partners.exchanges.count_actions import deliver_part, move_part, take_back_tally, tally
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.planning import days_worked, gather, plan_of, school_year_from
from partners.ground.models import Event
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.school.models import School, SchoolClass
from tests import people, whole_book
from tests.exchanges.trades import DAY, DUE, make_trade

pytestmark = pytest.mark.django_db


def make_classes(school: School, *students: int, minutes: int = 40, on: int | None = None) -> list[SchoolClass]:
    """Classes 0-A, 1-A … that have art on Monday, Tuesday and so on."""
    return [
        SchoolClass.objects.create(
            program=school.program, school=school, label=f"{place}-A", grade=place % 6, students=count, minutes=minutes,
            meets_on=[place % 5 if on is None else on],
        )
        for place, count in enumerate(students)
    ]  # fmt: skip


@pytest.fixture
def school(desk: Desk) -> School:
    return people.make_school(desk.program)


@pytest.fixture
def trade(desk: Desk, school: School) -> Trade:
    """200 to 250 packets by Friday 4 December 2026, the last lesson on Wednesday the 2nd; plain ones 20 October."""
    return make_trade(desk, school=school)


def chosen(desk: Desk, trade: Trade, *classes: SchoolClass) -> list[TradeClass]:
    plans.choose_classes(desk=desk, trade=trade, classes=[(one, 0) for one in classes])
    return rows(trade)


def rows(trade: Trade) -> list[TradeClass]:
    return list(trade.classes.order_by("school_class"))


def shares(trade: Trade) -> list[int]:
    return [row.share for row in rows(trade)]


def refreshed(trade: Trade) -> Trade:
    return Trade.objects.get(pk=trade.pk)


def test_classes_share_by_enrolment_and_start_back_from_the_day(desk: Desk, school: School, trade: Trade) -> None:
    """200 over 20, 25 and 5 children: 80, 100, 20, four each. Two items a lesson: two lessons on Mon, Tue, Wed.

    The last lessons through Wednesday 2 December 2026 are 23 and 30 November, 24 November and 1 December, 25 November
    and 2 December.
    """
    before = whole_book.rows(desk.program)
    found = chosen(desk, trade, *make_classes(school, 20, 25, 5))
    assert [(row.share, row.lessons, row.start_on) for row in found] == [
        (80, 2, date(2026, 11, 23)), (100, 2, date(2026, 11, 24)), (20, 2, date(2026, 11, 25)),
    ]  # fmt: skip
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    SchoolClass.objects.all().delete()
    assert whole_book.rows(desk.program) == before


def test_a_snow_day_in_one_school_moves_only_its_starts(desk: Desk, school: School, trade: Trade) -> None:
    ridge = people.make_school(desk.program, "North Ridge Elementary")
    chosen(desk, trade, *make_classes(school, 20, 25, on=1), *make_classes(ridge, 20, 25, on=1))
    before = {row.pk: (row.share, row.start_on) for row in rows(trade)}
    snow = date(2026, 11, 24)
    _days, moved = close_days(desk=desk, school=ridge, stretches=[(snow, snow, "unplanned", "Snow")])
    after = {row.pk: (row.share, row.start_on) for row in rows(trade)}
    assert moved == 2
    assert [school for pk, school in at_schools(trade) if before[pk] != after[pk]] == [ridge.name] * 2
    assert sum(share for share, _start in after.values()) == 200
    assert after[rows(trade)[-1].pk][1] == date(2026, 11, 17)
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert {row.pk: (row.share, row.start_on) for row in rows(trade)} == before


def at_schools(trade: Trade) -> list[tuple[int, str]]:
    return list(trade.classes.order_by("pk").values_list("pk", "school_class__school__name"))


def test_lost_lessons_and_another_day_of_art_move_the_start(desk: Desk, school: School, trade: Trade) -> None:
    (one,) = make_classes(school, 25)
    (row,) = chosen(desk, trade, one)
    assert row.start_on == date(2026, 11, 9)
    testing = {"first": date(2026, 11, 16), "last": date(2026, 11, 20), "grade": 0, "title": "State testing"}
    assert lose_lessons(desk=desk, school=school, **testing)[1] == 1
    assert rows(trade)[0].start_on == date(2026, 11, 2)
    assert edit_class(desk=desk, school_class=one, meets_on=[2]) == 1
    assert rows(trade)[0].start_on == date(2026, 11, 4)
    assert differences(desk.program) == []


def test_other_weekdays_of_the_school_are_told_at_once(desk: Desk, school: School, trade: Trade) -> None:
    chosen(desk, trade, *make_classes(school, 25))
    assert edit_school(desk=desk, school=school, weekdays=[1, 2, 3, 4]) >= 1
    assert rows(trade)[0].start_on is None
    assert differences(desk.program) == []


def test_shares_follow_the_children_until_work_begins(desk: Desk, school: School, trade: Trade) -> None:
    one, other = make_classes(school, 20, 20)
    chosen(desk, trade, one, other)
    edit_class(desk=desk, school_class=one, students=30)
    assert shares(trade) == [120, 80]
    tally(desk=desk, trade_class=rows(trade)[0], day=DAY, done=10)
    edit_class(desk=desk, school_class=one, students=20)
    assert shares(trade) == [120, 80]
    assert differences(desk.program) == []
    take_back_tally(desk=desk, tally=rows(trade)[0].tallies.get())
    assert shares(trade) == [100, 100]
    assert differences(desk.program) == []


def test_a_share_set_by_hand_stands_and_the_others_keep_the_sum(desk: Desk, school: School, trade: Trade) -> None:
    first, second, _third = chosen(desk, trade, *make_classes(school, 20, 20, 10))
    moved = plans.set_share(desk=desk, trade_class=first, share=50, seen=first.version)
    assert shares(trade) == [50, 100, 50]
    assert [(one.label, one.before, one.after) for one in moved] == [("1-A", 80, 100), ("2-A", 40, 50)]
    edit_class(desk=desk, school_class=second.school_class, students=10)
    assert shares(trade) == [50, 75, 75]
    plans.set_share(desk=desk, trade_class=rows(trade)[0], share=None)
    assert shares(trade) == [100, 50, 50]
    assert differences(desk.program) == []


def test_a_share_below_what_is_done_is_refused(desk: Desk, school: School, trade: Trade) -> None:
    (row,) = chosen(desk, trade, *make_classes(school, 20))
    tally(desk=desk, trade_class=row, day=DAY, done=12)
    with pytest.raises(PlainError, match="0-A has made 12 already"):
        plans.set_share(desk=desk, trade_class=rows(trade)[0], share=11)


def test_a_count_passes_on_what_a_class_has_no_lesson_left_for(desk: Desk, school: School, trade: Trade) -> None:
    """67, 67, 66. Monday's class was counted in its last lesson: 10. The others share the 190 that are left, since what
    they made in the lessons before is only not counted.
    """
    chosen(desk, trade, *make_classes(school, 20, 20, 20))
    monday = people.make_desk(desk.program, day=date(2026, 11, 30))
    tally(desk=monday, trade_class=rows(trade)[0], day=monday.day, done=10)
    assert shares(trade) == [67, 67, 66]
    before = whole_book.rows(desk.program)
    late = people.make_desk(desk.program, day=date(2026, 12, 1))
    tally(desk=late, trade_class=rows(trade)[1], day=late.day, done=10)
    assert shares(trade) == [10, 95, 95]
    assert differences(desk.program) == []
    whole_book.undo_newest(late)
    assert whole_book.rows(desk.program) == before


def test_no_number_jumps_from_tap_to_tap_in_a_lesson(desk: Desk, school: School, trade: Trade) -> None:
    chosen(desk, trade, *make_classes(school, 20, 20))
    lesson = people.make_desk(desk.program, day=date(2026, 10, 26))
    before = shares(trade)
    for _tap in range(3):
        tally(desk=lesson, trade_class=rows(trade)[0], day=lesson.day, done=5)
        assert shares(trade) == before


def test_a_count_is_kept_where_no_plan_can_be_made(desk: Desk, school: School, trade: Trade) -> None:
    chosen(desk, trade, *make_classes(school, 20, 20))
    School.objects.update(weekdays=[])
    tally(desk=desk, trade_class=rows(trade)[0], day=DAY, done=5)
    assert [row.done for row in rows(trade)] == [5, 0]


def test_planning_anew_passes_on_what_a_class_has_no_room_for(desk: Desk, school: School, trade: Trade) -> None:
    chosen(desk, trade, *make_classes(school, 20, 20))
    late = people.make_desk(desk.program, day=date(2026, 11, 24))
    tally(desk=late, trade_class=rows(trade)[0], day=date(2026, 11, 23), done=30)
    plans.replan(desk=late, trade=refreshed(trade))
    # Monday's class has one lesson left, 40 items; Tuesday's has two.
    assert shares(trade)[0] <= 70
    assert sum(shares(trade)) == 150
    assert plan_of(desk.program, refreshed(trade), late.day).short_by == 50
    assert differences(desk.program) == []


def test_who_made_something_stays_in_the_plan(desk: Desk, school: School, trade: Trade) -> None:
    one, other = make_classes(school, 20, 20)
    chosen(desk, trade, one, other)
    tally(desk=desk, trade_class=rows(trade)[0], day=DAY, spoiled=1)
    with pytest.raises(PlainError, match="0-A made something"):
        chosen(desk, trade, other)
    assert [row.school_class for row in chosen(desk, trade, one)] == [one]
    with pytest.raises(PlainError, match="takes part in a trade"):
        remove_class(desk=desk, school_class=one)


def test_children_who_do_not_take_part_are_taken_off(desk: Desk, school: School, trade: Trade) -> None:
    one, other = make_classes(school, 30, 10)
    plans.choose_classes(desk=desk, trade=trade, classes=[(one, 20), (other, 0)])
    assert shares(trade) == [100, 100]
    plans.choose_classes(desk=desk, trade=trade, classes=[(one, 30), (other, 0)])
    assert shares(trade) == [0, 200]
    assert differences(desk.program) == []


def offered(desk: Desk, trade: Trade) -> list[str]:
    return [str(offer.kind) for offer in plan_of(desk.program, refreshed(trade), desk.day).offers]


@pytest.mark.parametrize("kind", ["fewer", "later", "smaller"])
def test_an_offer_that_is_taken_fits_and_is_one_change(desk: Desk, school: School, trade: Trade, kind: str) -> None:
    """Three children have 24 of the 260, and lessons for one item each: seven Mondays from 20 October make 18 or 21."""
    one, other = make_classes(school, 3, 30)
    trade = make_trade(desk, at_least=260, at_most=None, school=school)
    chosen(desk, trade, one, other)
    SchoolClass.objects.filter(pk=one.pk).update(minutes=20)
    trade = refreshed(trade)
    plans.replan(desk=desk, trade=trade)
    before = whole_book.rows(desk.program)
    assert set(offered(desk, trade)) == {"fewer", "later", "smaller"}
    taken = plans.take_offer(desk=desk, trade=trade, kind=kind)
    assert taken is not None
    assert plan_of(desk.program, refreshed(trade), desk.day).fits
    assert (refreshed(trade).make.due != DUE) == (kind == "later")
    assert (refreshed(trade).make.quantity != 260) == (kind == "smaller")
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert whole_book.rows(desk.program) == before


def test_another_promise_is_signed_anew(desk: Desk, school: School) -> None:
    trade = make_trade(desk, at_least=1000, at_most=None, school=school, memo_signed_on=DAY)
    chosen(desk, trade, *make_classes(school, 20))
    plans.take_offer(desk=desk, trade=refreshed(trade), kind="smaller")
    assert refreshed(trade).memo_signed_on is None
    assert plans.take_offer(desk=desk, trade=refreshed(trade), kind="smaller") is None


def test_lessons_count_once_a_day_over_all_trades_of_the_school_year(desk: Desk, school: School, trade: Trade) -> None:
    one, _other = make_classes(school, 20, 20)
    second = make_trade(desk, what="painted boxes", lesson_limit=4)
    for which, days in ((trade, (DAY, DAY, DAY - timedelta(days=120))), (second, (DAY, DAY + timedelta(days=7)))):
        (row,) = chosen(desk, which, one)
        for day in days:
            tally(desk=desk, trade_class=row, day=day, done=1)
    assert school_year_from(desk.program, DUE) == date(2026, 7, 1)
    assert len(days_worked(desk.program, [one], DUE)[one.pk]) == 2
    assert gather(desk.program, second, DAY).classes[0].lessons_left == 2
    desk.program.school_days.create(
        program=desk.program, school=school, kind="year", first=date(2026, 10, 7), last=date(2027, 6, 18)
    )
    assert gather(desk.program, second, DAY).classes[0].lessons_left == 3


def test_work_begins_when_the_plain_items_are_there_and_a_lesson_that_was_counted_is_over(
    desk: Desk, school: School, trade: Trade
) -> None:
    (row,) = chosen(desk, trade, *make_classes(school, 20, on=1))
    assert gather(desk.program, trade, DAY).first == date(2026, 10, 20)
    deliver_part(desk=desk, promise=trade.plain, day=date(2026, 10, 9), quantity=100, part=True)
    assert gather(desk.program, trade, DAY).first == date(2026, 10, 9)
    assert gather(desk.program, trade, date(2026, 11, 3)).classes[0].meetings[0] == date(2026, 11, 3)
    tally(desk=desk, trade_class=row, day=date(2026, 11, 3), done=5)
    assert gather(desk.program, trade, date(2026, 11, 3)).classes[0].meetings[0] == date(2026, 11, 10)


def test_when_the_promised_day_moves_the_starts_move(desk: Desk, school: School, trade: Trade) -> None:
    (row,) = chosen(desk, trade, *make_classes(school, 100, on=1))
    assert row.start_on == date(2026, 12, 1)
    move_part(desk=desk, promise=trade.make, due=date(2026, 11, 20))
    assert rows(trade)[0].start_on == date(2026, 11, 17)
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert rows(trade)[0].start_on == date(2026, 12, 1)


def test_a_plan_takes_the_same_queries_for_any_number_of_classes(
    desk: Desk, school: School, trade: Trade, django_assert_num_queries: Any
) -> None:
    chosen(desk, trade, *make_classes(school, *[20] * 48))
    with django_assert_num_queries(15):
        made = plan_of(desk.program, trade, DAY)
    assert made.total == 200
    assert len(made.rows) == 48
