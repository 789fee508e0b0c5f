"""The plan by class changed through the screens: shares by hand, days of a class, planning anew."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.exchanges import plan_actions as plans
from partners.exchanges.count_actions import tally
from partners.exchanges.models import Trade
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.school.actions import edit_class
from partners.school.models import School, SchoolClass
from tests import people, whole_book
from tests.exchanges.plan_screen import address, plan_page, press
from tests.exchanges.test_planning import chosen, make_classes, rows, shares
from tests.exchanges.trades import DAY, make_trade
from tests.ladder import enter, flat

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(program: Any) -> School:
    return people.make_school(program)


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def trade(own: Desk, school: School) -> Trade:
    return make_trade(own, school=school)


def test_fewer_classes_keep_the_promise(signed_in: Client, own: Desk, school: School, trade: Trade) -> None:
    one, other = make_classes(school, 20, 20)
    SchoolClass.objects.filter(pk=one.pk).update(meets_on=[])
    chosen(own, trade, one, other)
    page = plan_page(signed_in, trade)
    assert "Days of art not entered: " in page
    assert "0-A makes none instead of 100; instead 1-A 100 more." in page
    press(signed_in, "trade-offer", trade.pk, kind="fewer")
    assert shares(trade) == [0, 200]
    assert signed_in.post(address("trade-offer", trade.pk), {"kind": "nonsense"}).status_code == 404


def test_a_share_set_by_hand_says_who_moves(signed_in: Client, own: Desk, school: School, trade: Trade) -> None:
    first, _second, _third = chosen(own, trade, *make_classes(school, 20, 20, 10))
    before = whole_book.rows(own.program)
    said = press(signed_in, "trade-share", first.pk, share="50", seen=first.version)
    assert said == "0-A makes 50. So that the sum stays right: 1-A 80 → 100 and 2-A 40 → 50."
    assert "by hand" in plan_page(signed_in, trade)
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert whole_book.rows(own.program) == before
    press(signed_in, "trade-share", first.pk, share="50")
    assert press(signed_in, "trade-share", first.pk, **{"work-out": "yes"}).startswith("0-A makes 80.")


@pytest.mark.parametrize(
    ("share", "sentence"),
    [("", "Say how many."), ("-1", "greater than or equal to 0"), ("many", "whole number"), ("9999999", "right?"),
     ("2", "0-A has made 3 already.")],
)  # fmt: skip
def test_a_share_that_cannot_be_stays_on_the_page(
    signed_in: Client, own: Desk, school: School, trade: Trade, share: str, sentence: str
) -> None:
    first, second = chosen(own, trade, *make_classes(school, 20, 20))
    tally(desk=own, trade_class=first, day=DAY, done=3)
    page = flat(signed_in.post(address("trade-share", first.pk), {"share": share}))
    assert sentence in page
    assert f'href="#share-{first.pk}-share"' in page
    assert f'id="share-{second.pk}-share"' in page
    assert shares(trade) == [100, 100]


def test_planning_anew_is_offered_once_something_changed(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    first, second = chosen(own, trade, *make_classes(school, 20, 20))
    tally(desk=own, trade_class=first, day=DAY, done=10)
    edit_class(desk=own, school_class=second.school_class, students=60)
    page = plan_page(signed_in, trade)
    assert "0-A 100 → 50" in page
    said = press(signed_in, "trade-replan", trade.pk)
    assert said == "Planned anew. So that the sum stays right: 0-A 100 → 50 and 1-A 100 → 150."
    assert press(signed_in, "trade-replan", trade.pk) == "The plan stands so already. Nothing was changed."


def test_counting_after_the_last_lessons_leaves_the_shares_of_who_is_not_counted_yet(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    """200 over 24, 24 and 2 children: 96, 96, 8. The last lessons are on 30 November to 2 December.

    On the 3rd the first has made 90 of its 96. Nobody has a lesson left for the six, nor has anybody counted the 104.
    """
    first, second, _third = chosen(own, trade, *make_classes(school, 24, 24, 2))
    SchoolClass.objects.filter(pk=second.school_class_id).update(minutes=None)
    with time_machine.travel("2026-12-03 15:00 -0500", tick=False):
        enter(signed_in, own.program.memberships.get(user=own.user))
        press(signed_in, "class-tally", first.pk, tap="5")
        assert press(signed_in, "class-tally", first.pk, tap="number", count="85") == "0-A: 85 done."
        assert shares(trade) == [96, 96, 8]
        page = plan_page(signed_in, trade)
    assert "Lessons are over, and nothing was counted in them: <" in page
    assert "0-A 96 → 90" in page
    assert differences(own.program) == []


@pytest.mark.parametrize(
    ("day", "due", "sentence"),
    [
        ("2026-12-07", date(2026, 12, 4), "The promised day, December 4, has passed."),
        ("2026-12-03", date(2026, 12, 4), "The last day for lessons, December 2, has passed"),
        ("2026-10-06", date(2026, 12, 5), "There is no school on December 5. The last lessons that count are on"),
    ],
)
def test_a_day_that_has_passed_or_has_no_school_is_one_clear_sentence(
    signed_in: Client, own: Desk, school: School, day: str, due: date, sentence: str
) -> None:
    trade = make_trade(own, school=school, due=due)
    chosen(own, trade, *make_classes(school, 20))
    with time_machine.travel(f"{day} 15:00 -0500", tick=False):
        enter(signed_in, own.program.memberships.get(user=own.user))
        assert sentence in plan_page(signed_in, trade)


def test_behind_the_last_school_year_the_plan_asks_for_the_next_one(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    first, _second = chosen(own, trade, *make_classes(school, 20, 20))
    tally(desk=own, trade_class=first, day=DAY, done=10)
    year = {"kind": "year", "first": date(2025, 9, 2), "last": date(2026, 6, 12)}
    school.school_days.create(program=own.program, school=school, **year)
    page = plan_page(signed_in, trade)
    assert "The school year of Millrace Elementary ended on June 12." in page
    assert "Since then something changed" not in page


def test_a_lesson_on_a_federal_holiday_asks_whether_school_is_open(
    signed_in: Client, own: Desk, school: School
) -> None:
    # 11 November 2026, a Wednesday, is Veterans Day (5 U.S.C. 6103).
    trade = make_trade(own, school=school, due=date(2026, 11, 13), minutes_per_item=45)
    chosen(own, trade, *make_classes(school, 20, on=2))
    sentence = "on November 11, a federal holiday: the calendar of Millrace Elementary is open then."
    assert sentence in plan_page(signed_in, trade)
    school.school_days.create(program=own.program, kind="closed", first=date(2026, 11, 11), last=date(2026, 11, 11))
    assert "federal holiday" not in plan_page(signed_in, trade)


def test_a_share_above_all_that_is_promised_is_refused_where_it_was_typed(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    row = chosen(own, trade, *make_classes(school, 20, 20))[0]
    page = flat(signed_in.post(address("trade-share", row.pk), {"share": "2000"}))
    assert "would make more than all that is promised" in page
    assert 'value="2000"' in page
    assert shares(trade) == [100, 100]


def test_nobody_taking_part_and_shares_by_hand_that_come_to_too_many_say_so(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    first, _second = chosen(own, trade, *make_classes(school, 20, 20))
    press(signed_in, "trade-share", first.pk, share="201")
    assert "What is set by hand comes to 201, more than the 200 to share." in plan_page(signed_in, trade)
    SchoolClass.objects.update(students=0)
    plans.set_share(desk=own, trade_class=rows(trade)[0], share=None)
    assert "There is nobody to share 200 over." in plan_page(signed_in, trade)
    assert differences(own.program) == []
