"""The plan by class through the screens: choosing classes, what fits, and who may."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.exchanges.actions import call_off
from partners.exchanges.count_actions import tally
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plan_forms import ClassesForm
from partners.program.desk import Desk
from partners.program.models import Membership, Opened
from partners.school.models import School, SchoolClass
from tests import people
from tests.exchanges.plan_screen import address, plan_page, press, ticks
from tests.exchanges.test_planning import chosen, make_classes, rows, shares
from tests.exchanges.trades import DAY, make_trade
from tests.ladder import UNKNOWN, enter, flat, status

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


def test_classes_are_chosen_and_the_plan_is_there(signed_in: Client, school: School, trade: Trade) -> None:
    one, other, third = make_classes(school, 20, 25, 5)
    assert "No class is chosen yet." in plan_page(signed_in, trade)
    typed = ticks(one, other, **{f"without-{other.pk}": "5"})
    assert press(signed_in, "trade-classes", trade.pk, **typed) == "2 classes take part."
    assert shares(trade) == [100, 100]
    page = plan_page(signed_in, trade)
    assert "✓ It fits" in page
    assert "The first class begins by Monday, November 16" in page
    assert "Mon, Nov 16" in page
    assert third.label not in page
    assert differences(school.program) == []


def test_a_class_of_an_old_trade_alone_is_counted_no_more_and_its_trade_still_names_it(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    one, other = make_classes(school, 20, 20)
    chosen(own, trade, one, other)
    call_off(desk=own, trade=trade, day=DAY)
    page = signed_in.post(reverse("school:class-remove", args=[one.pk]), follow=True).content.decode()
    assert "Class 0-A counts no more." in page
    assert "20 students in all." in page
    assert "0-A" in plan_page(signed_in, trade)
    assert list(own.classes.with_students()) == [other]
    assert ClassesForm(desk=own).known == [other]
    assert differences(own.program) == []


@pytest.mark.parametrize(
    ("which", "count"), [("all", 2), ("grade-1", 2), ("none", 0), ("school", 2), ("ridge", 2), ("nonsense", 1)]
)
def test_many_of_the_trades_school_are_ticked_at_once_and_nothing_is_saved(
    signed_in: Client, school: School, trade: Trade, which: str, count: int
) -> None:
    one, _other = make_classes(school, 20, 25)
    ridge = people.make_school(school.program, "North Ridge Elementary")
    third = SchoolClass.objects.create(program=school.program, school=ridge, label="1-B", grade=1, students=5)
    tick = {"school": f"school-{school.pk}", "ridge": f"school-{ridge.pk}"}.get(which, which)
    typed = ticks(one, **{f"without-{third.pk}": "3", "tick": tick})
    answer = signed_in.post(address("trade-classes", trade.pk), typed)
    assert flat(answer).count(" checked") == count
    assert f'name="without-{third.pk}" value="3"' in flat(answer)
    assert not TradeClass.objects.exists()


@pytest.mark.parametrize(("which", "count"), [("none", 0), ("grade-5", 1)])
def test_ticking_many_brings_back_no_class_that_was_unticked(
    signed_in: Client, own: Desk, school: School, trade: Trade, which: str, count: int
) -> None:
    one, other = make_classes(school, 20, 25)
    chosen(own, trade, one, other)
    answer = signed_in.post(address("trade-classes", trade.pk), ticks(one, tick=which))
    assert flat(answer).count(" checked") == count


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({}, "Choose at least one class."),
        ({"without": "21"}, "0-A has 20 students."),
        ({"without": "-1"}, "greater than"),
    ],
)
def test_what_cannot_be_chosen_is_told_and_kept(
    signed_in: Client, school: School, trade: Trade, typed: dict[str, str], sentence: str
) -> None:
    (one,) = make_classes(school, 20)
    sent = ticks(one, **{f"without-{one.pk}": typed["without"]}) if typed else {"x": "y"}
    page = flat(signed_in.post(address("trade-classes", trade.pk), sent))
    assert sentence in page
    assert not TradeClass.objects.exists()


def test_a_class_that_made_something_stays_and_says_why(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    one, other = make_classes(school, 20, 20)
    tally(desk=own, trade_class=chosen(own, trade, one, other)[0], day=DAY, done=3)
    page = flat(signed_in.post(address("trade-classes", trade.pk), ticks(other)))
    assert "0-A made something for it already" in page


def test_a_teacher_of_one_school_leaves_the_others_classes_in_the_plan(
    client: Client, own: Desk, omar: Membership, school: School
) -> None:
    ridge = people.make_school(own.program, "North Ridge Elementary")
    trade = make_trade(own)
    one, other = *make_classes(school, 20), *make_classes(ridge, 20)
    chosen(own, trade, other)
    Membership.objects.filter(pk=omar.pk).update(school_ids=[school.pk])
    press(enter(client, omar), "trade-classes", trade.pk, **ticks(one))
    assert {row.school_class for row in rows(trade)} == {one, other}
    statuses = [status(client, address("trade-share", row.pk), "post", share="3") for row in rows(trade)]
    assert statuses == [302, 404]


def test_a_class_that_works_for_two_trades_at_once_is_told(
    signed_in: Client, own: Desk, school: School, trade: Trade
) -> None:
    one, other = make_classes(school, 20, 20)
    chosen(own, trade, one, other)
    assert "also at work" not in plan_page(signed_in, trade)
    chosen(own, make_trade(own, what="painted boxes", school=school), other)
    assert "also at work on painted boxes: 1-A." in plan_page(signed_in, trade)


def test_what_does_not_fit_is_said_by_class_with_how_many_and_what_would_help(
    signed_in: Client, own: Desk, school: School
) -> None:
    """Mondays from 20 October through 2 December 2026 are six; 20 children make 40 in each: 240 of 300."""
    trade = make_trade(own, at_least=300, at_most=None, school=school)
    chosen(own, trade, *make_classes(school, 20))
    page = plan_page(signed_in, trade)
    assert "60 will not be there on the day" in page
    assert "Too few lessons left by then: " in page
    assert ">0-A: 60</a>" in page
    assert "240 can be there on the day. This changes what was promised" in page
    assert "The memo becomes a new version." in page
    assert "Promise it for December 16" in page
    said = press(signed_in, "trade-offer", trade.pk, kind="later")
    assert said == ("Promised now: 300 by December 16. Tell Riverbend Garden Center, and print the memo anew.")
    assert "✓ It fits" in plan_page(signed_in, trade)
    assert "not needed any more" in press(signed_in, "trade-offer", trade.pk, kind="later")
    assert differences(own.program) == []


def test_many_classes_that_do_not_fit_are_not_all_named_above_the_grid(
    signed_in: Client, own: Desk, school: School
) -> None:
    trade = make_trade(own, school=school, at_least=100_000, at_most=None)
    chosen(own, trade, *make_classes(school, *[20] * 11))
    page = plan_page(signed_in, trade)
    assert "and 3 more below" in page
    assert "0 of 100,000</strong> done" in flat(signed_in.get(trade.get_absolute_url()))


def test_the_method_is_named_behind_plain_words(signed_in: Client, own: Desk, school: School) -> None:
    trade = make_trade(own, at_least=10, at_most=None, minimum=1, school=school)
    chosen(own, trade, *make_classes(school, 1, 2, 15, 3, 1, 12, 4))
    page = plan_page(signed_in, trade)
    assert "How was this worked out?" in page
    assert "the larger class comes first" in page
    assert "only the rest was shared by size" in page
    assert page.index("Each class gets its part") < page.index("largest-remainder method")


def test_the_page_takes_the_same_queries_for_any_number_of_classes(
    signed_in: Client, own: Desk, school: School, trade: Trade, django_assert_max_num_queries: Any
) -> None:
    chosen(own, trade, *make_classes(school, *[20] * 48))
    with django_assert_max_num_queries(27):
        plan_page(signed_in, trade)
    with django_assert_max_num_queries(14):
        signed_in.get(address("trade-classes", trade.pk))


def test_the_ladder(
    client: Client, own: Desk, school: School, trade: Trade, grace: Membership, otto: Membership
) -> None:
    (row,) = chosen(own, trade, *make_classes(school, 20))
    place, forms = address("trade-plan", trade.pk), {"trade-classes": trade.pk, "trade-replan": trade.pk}
    posts = [address(name, pk) for name, pk in {**forms, "trade-offer": trade.pk, "trade-share": row.pk}.items()]
    assert {status(client, path) for path in (place, posts[0])} == {302}
    assert status(enter(client, grace), place) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.TRADES])
    assert "Choose classes" not in flat(client.get(place))
    assert {status(client, path, "post") for path in posts} == {403}
    enter(client, otto)
    assert {status(client, path, "post") for path in posts} | {status(client, place)} == {404}
    enter(client, own.program.memberships.get(user=own.user))
    assert status(client, address("trade-plan", UNKNOWN)) == 404
    assert status(client, place, "post") == 405


def test_a_trade_that_was_called_off_is_only_read(signed_in: Client, own: Desk, school: School, trade: Trade) -> None:
    (row,) = chosen(own, trade, *make_classes(school, 20))
    Trade.objects.filter(pk=trade.pk).update(called_off_on=DAY)
    assert "Set by hand" not in plan_page(signed_in, trade)
    assert status(signed_in, address("trade-share", row.pk), "post", share="3") == 404
