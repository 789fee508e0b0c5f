"""Who asks whom, when: two who mean one place stand out, and a verdict tells no more than a person may see."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.asking.gather import gather
from partners.asking.may_ask import Verdict
from partners.asking.prefill import prefill
from partners.asking.reasons import Code
from partners.asking.words import answer
from partners.directory.actions import add_partner
from partners.program.models import Membership
from partners.visits.actions import Stop, plan_outing, record_ask
from partners.wish_list.actions import add_need
from tests.ladder import enter, flat, status
from tests.people import TUESDAY, make_desk, make_school

pytestmark = pytest.mark.django_db
PAGE = reverse("asking:who-asks")
IN_DAYS = timedelta(days=5)


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False):
        yield


@pytest.fixture
def mine(program):
    return make_school(program)


@pytest.fixture
def other(program):
    return make_school(program, "North Ridge Elementary")


@pytest.fixture
def omars(omar: Membership, other):
    return make_desk(omar.program, user=omar.user)


@pytest.fixture
def shop(omars):
    return add_partner(desk=omars, name="Tamarack Hardware")


def plan(desk, shop, day, school=None):
    return plan_outing(desk=desk, day=day, stops=[Stop(shop, None, Verdict(TUESDAY, (), TUESDAY))], school=school)


def limited(june: Membership, school):
    june.school_ids = [school.pk]
    june.save()
    return make_desk(june.program, user=june.user, school_ids=frozenset([school.pk]))


def test_two_who_plan_the_same_place_are_told_to_talk(signed_in: Client, june, omars, shop, mine, other) -> None:
    plan(omars, shop, TUESDAY + IN_DAYS, other)
    plan(make_desk(june.program, user=june.user), shop, TUESDAY + 2 * IN_DAYS, mine)
    page = flat(signed_in.get(PAGE))
    assert "Talk to each other first" in page
    assert "Omar plans to go there on" in page
    assert "June plans to go there on" in page
    assert "North Ridge Elementary" in page


def test_one_persons_two_rounds_are_no_clash_and_one_long_after_is_none(signed_in: Client, june, omars, shop) -> None:
    for weeks in (1, 2):
        plan(omars, shop, TUESDAY + timedelta(weeks=weeks))
    plan(make_desk(june.program, user=june.user), shop, TUESDAY + timedelta(weeks=7))
    assert "Talk to each other first" not in flat(signed_in.get(PAGE))


def test_what_was_asked_lately_is_there_with_who_and_how_it_stands(signed_in: Client, omars, shop, other) -> None:
    record_ask(desk=omars, partner=shop, what="sawdust", asked_on=TUESDAY - IN_DAYS, school=other)
    record_ask(desk=omars, partner=shop, what="paint", asked_on=TUESDAY - timedelta(days=200))
    page = flat(signed_in.get(PAGE))
    assert "sawdust" in page
    assert "Omar" in page
    assert "waiting" in page
    assert "paint" not in page


def test_the_page_of_an_outing_says_what_a_colleague_plans(signed_in: Client, omars, shop) -> None:
    plan(omars, shop, TUESDAY + IN_DAYS)
    address = {"day": TUESDAY.isoformat(), "place": shop.pk}
    assert "Omar plans to go there on October 11, 2026." in flat(signed_in.get(reverse("asking:outing-new"), address))


def test_the_page_of_the_place_says_it_too(signed_in: Client, omars, shop) -> None:
    plan(omars, shop, TUESDAY + IN_DAYS)
    assert "Omar plans to go there on October 11, 2026." in flat(signed_in.get(shop.get_absolute_url()))


def test_a_colleagues_outing_fills_in_no_need_of_a_school_that_one_does_not_see(june, omars, shop, mine, other) -> None:
    need = add_need(desk=omars, what="broken tile", school=other, quantity=6)
    stop = Stop(shop, need, Verdict(TUESDAY, (), TUESDAY))
    outing = plan_outing(desk=omars, day=TUESDAY, stops=[stop])
    assert prefill(omars, shop, outing.stops.get()).need == need
    assert prefill(limited(june, mine), shop, outing.stops.get()).need is None


def test_of_another_school_only_the_day_is_told(client: Client, june, omars, shop, mine, other) -> None:
    """In the verdict as on the page: a colleague asked, and when; not who, for what, or for which school."""
    desk = limited(june, mine)
    record_ask(desk=omars, partner=shop, what="sawdust", asked_on=TUESDAY - IN_DAYS, school=other)
    plan(omars, shop, TUESDAY + IN_DAYS, other)
    plan(desk, shop, TUESDAY + IN_DAYS, mine)
    verdict = gather(desk, [shop]).verdict(shop, TUESDAY)
    assert Code.COLLEAGUE_ASKED in {reason.code for reason in verdict.reasons}
    assert "a colleague asked Tamarack Hardware on October 1, 2026" in answer(verdict, shop.name)
    page = flat(enter(client, june).get(PAGE))
    assert "a colleague asked there on October 1, 2026" in page
    assert "a colleague plans to go there on October 11, 2026" in page
    for said in (page, answer(verdict, shop.name)):
        assert not [word for word in ("Omar", "sawdust", "North Ridge") if word in said]


def test_the_page_takes_a_fixed_number_of_queries(signed_in: Client, omars, shop, django_assert_num_queries) -> None:
    plan(omars, shop, TUESDAY + IN_DAYS)
    with django_assert_num_queries(9):
        signed_in.get(PAGE)
    for number in range(6):
        plan(omars, add_partner(desk=omars, name=f"Shop {number}"), TUESDAY + IN_DAYS)
    with django_assert_num_queries(9):
        signed_in.get(PAGE)


def test_who_may_look(client: Client, june, grace, otto, omars, shop) -> None:
    plan(omars, shop, TUESDAY + IN_DAYS)
    assert status(client, PAGE) == 302
    assert status(enter(client, grace), PAGE) == 403
    assert status(enter(client, june), PAGE, "post") == 405
    assert "Tamarack" not in flat(enter(client, otto).get(PAGE))
