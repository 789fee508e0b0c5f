"""Pasting classes, choosing some, and the plan at a glance in a real browser, on a phone and on a desk."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect

from partners.exchanges.plan_actions import choose_classes
from partners.program.desk import Desk
from partners.program.models import Membership
from tests import people
from tests.browser.variants import with_script_and_nightly_without
from tests.exchanges.test_planning import make_classes
from tests.exchanges.trades import make_trade

pytestmark = pytest.mark.django_db(transaction=True)
PHONE, SMALLEST, TABLE = (360, 740), (320, 640), (1280, 860)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, day=timezone.localdate(), user=june.user)


@pytest.fixture
def opened(browser: Browser, live_server: Any, june: Membership) -> Iterator[Any]:
    """Opens an address as June sees it, at a size."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    value = client.cookies["sessionid"].value
    contexts = []

    def open_page(path: str, size: tuple[int, int] = PHONE, **kind: Any) -> Page:
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **kind)
        context.add_cookies([{"name": "sessionid", "value": value, "url": live_server.url}])
        contexts.append(context)
        page = context.new_page()
        page.goto(live_server.url + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


def make_plan(own: Desk, least: int = 200) -> Any:
    """Two classes of 20 with art on Mondays and Tuesdays have about eight weeks."""
    school = people.make_school(own.program)
    ahead = {"due": own.day + timedelta(days=56), "plain": None, "agreed_on": own.day, "at_most": None}
    trade = make_trade(own, at_least=least, gives=[], school=school, **ahead)
    choose_classes(desk=own, trade=trade, classes=[(one, 0) for one in make_classes(school, 20, 20)])
    return trade


@with_script_and_nightly_without
def test_classes_are_pasted_looked_at_and_saved_on_a_phone(opened: Any, own: Desk, script: bool) -> None:
    school = people.make_school(own.program, cycle_length=6, cycle_from=own.day)
    page = opened(reverse("school:class-paste", args=[school.pk]), java_script_enabled=script)
    page.get_by_label("Rows out of your spreadsheet").fill("3-A\t3\t24\tDay 1\t45\n3-B\t3\tmany\tMon\t45")
    page.get_by_role("button", name="Look at it first").click()
    expect(page.get_by_text("“many” is no number of students.")).to_be_visible()
    page.get_by_label("Rows out of your spreadsheet").fill("3-A\t3\t24\tDay 1\t45\n3-B\t3\t22\tDay 2\t45")
    page.get_by_role("button", name="Look again").click()
    page.get_by_role("button", name="Save 2 classes").click()
    expect(page.locator("#messages")).to_contain_text("2 classes added.")
    expect(page.get_by_role("link", name="3-B")).to_be_visible()


@with_script_and_nightly_without
def test_a_grade_is_chosen_with_one_press_and_a_share_set_by_hand(opened: Any, own: Desk, script: bool) -> None:
    trade = make_plan(own)
    page = opened(reverse("exchanges:trade-classes", args=[trade.pk]), java_script_enabled=script)
    page.get_by_role("button", name="None", exact=True).click()
    page.get_by_role("button", name="Kindergarten").click()
    page.get_by_label("not taking part: 0-A").fill("5")
    page.get_by_role("button", name="All", exact=True).click()
    page.get_by_role("button", name="Save and see the plan").click()
    expect(page.get_by_text("✓ It fits")).to_be_visible()
    card = page.get_by_role("row", name="0-A")
    expect(card).to_contain_text("86")
    card.get_by_text("Change").click()
    card.get_by_label("Items").fill("50")
    card.get_by_role("button", name="Set by hand").click()
    expect(page.locator("#messages")).to_contain_text("1-A 114 → 150")
    page.locator("#messages").get_by_role("button", name="Undo").click()
    expect(page.locator("#messages")).to_contain_text("Taken back")


def test_an_offer_makes_it_fit_with_one_press(opened: Any, own: Desk) -> None:
    page = opened(reverse("exchanges:trade-plan", args=[make_plan(own, 5000).pk]))
    expect(page.get_by_text("will not be there on the day")).to_be_visible()
    page.get_by_role("button", name="Promise", exact=False).last.click()
    expect(page.get_by_text("✓ It fits")).to_be_visible()


@pytest.mark.parametrize("size", [SMALLEST, pytest.param(TABLE, marks=pytest.mark.nightly)])
@pytest.mark.parametrize(
    "name", ["exchanges:trade-plan", pytest.param("exchanges:trade-classes", marks=pytest.mark.nightly)]
)
def test_everybody_can_use_it(opened: Any, own: Desk, name: str, size: tuple[int, int]) -> None:
    page = opened(reverse(name, args=[make_plan(own, 5000).pk]), size)
    found = Axe().run(page, options=RULES)
    assert [one["id"] for one in found.response["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
