"""Trades on a phone: agreed at the counter, counted in the room, delivered at the door."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.utils import timezone
from playwright.sync_api import Browser, Page, Route, expect

from partners.exchanges.actions import Given, PlainItems, agree
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plan_actions import choose_classes
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.school.actions import add_class
from partners.school.clock import clock
from tests import people
from tests.browser.variants import with_script_and_nightly_without

pytestmark = pytest.mark.django_db(transaction=True)
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


@pytest.fixture
def desk(june: Membership) -> Desk:
    return people.make_desk(june.program, day=timezone.localdate(), user=june.user)


@pytest.fixture
def phone(browser: Browser, live_server: Any, june: Membership) -> Iterator[Any]:
    """Opens an address of the site as June sees it on her phone."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    cookie = {"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}
    contexts = []

    def open_page(path: str, **kind: Any) -> Page:
        context = browser.new_context(**{**PHONE, **kind})
        context.add_cookies([cookie])
        contexts.append(context)
        page = context.new_page()
        page.goto(live_server.url + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


def in_weeks(desk: Desk, weeks: int) -> Any:
    return clock(desk.program).on_or_after(desk.day + timedelta(weeks=weeks))


@pytest.fixture
def trade(desk: Desk) -> Trade:
    school = people.make_school(desk.program)
    when = in_weeks(desk, 8)
    made = agree(
        desk=desk,
        partner=people.make_partner(desk.program),
        what="decorated seed packets",
        at_least=60,
        due=when,
        school=school,
        plain=PlainItems(side="them", due=in_weeks(desk, 1)),
        gives=[Given(what="terracotta pots", quantity=60, due=when)],
    )
    own = {"grade": 3, "students": 24, "minutes": 45, "meets_on": [0, 1, 2, 3, 4]}
    classes = [(add_class(desk=desk, school=school, label=label, **own), 0) for label in ("3-A", "3-B")]
    choose_classes(desk=desk, trade=made, classes=classes)
    return made


def counts(trade: Trade) -> dict[str, tuple[int, int]]:
    rows = TradeClass.objects.filter(trade=trade).values_list("school_class__label", "done", "spoiled")
    return {label: (done, spoiled) for label, done, spoiled in rows}


def fits_and_is_sound(page: Page) -> None:
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()


@with_script_and_nightly_without
def test_a_trade_is_agreed_at_the_counter(phone: Any, desk: Desk, script: bool) -> None:
    people.make_school(desk.program)
    page = phone("/trades/new/", java_script_enabled=script)
    if script:
        fits_and_is_sound(page)
    page.get_by_label("With whom").fill("Bluebird Bakery")
    page.get_by_label("What we make").fill("painted cake boxes")
    page.get_by_label("How many, at least").fill("50")
    page.get_by_label("Up to").fill("62")
    if script:
        expect(page.get_by_text("Plain items: 69.")).to_be_visible()
    page.get_by_label("We deliver by").fill(in_weeks(desk, 6).isoformat())
    page.get_by_label("What they give").first.fill("cake boards")
    page.get_by_role("button", name="Save the trade").tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("Painted cake boxes")
    trade = Trade.objects.get()
    assert [one.quantity for one in trade.promises.order_by("part")] == [None, 50, 69]


def test_quick_taps_all_count_and_are_taken_back(phone: Any, trade: Trade) -> None:
    page = phone(f"/trades/{trade.pk}/progress/")
    fits_and_is_sound(page)

    def slow(route: Route) -> None:
        time.sleep(0.3)
        route.continue_()

    page.route("**/tally/", slow)
    one = page.get_by_role("button", name="+1 done, 3-A")
    box = one.bounding_box()
    assert min(box["width"], box["height"]) >= 44
    for _tap in range(3):
        one.tap()
    page.get_by_role("button", name="+5 done, 3-B").tap()
    page.get_by_role("button", name="Spoiled +1 3-A").tap()
    expect(page.get_by_text("3 of 30 done, 27 left, 1 spoiled")).to_be_visible(timeout=20_000)
    expect(page.get_by_text("5 of 30 done, 25 left")).to_be_visible()
    assert counts(trade) == {"3-A": (3, 1), "3-B": (5, 0)}
    page.get_by_role("button", name="Take back 3-A").first.tap()
    expect(page.get_by_text("3 of 30 done, 27 left", exact=True)).to_be_visible()
    assert counts(trade)["3-A"] == (3, 0)


def test_a_tap_counts_without_script(phone: Any, trade: Trade) -> None:
    page = phone(f"/trades/{trade.pk}/progress/", java_script_enabled=False)
    page.get_by_role("button", name="Whole lesson: +30 done, 3-B").tap()
    expect(page.get_by_text("30 done, its whole share")).to_be_visible()
    assert counts(trade)["3-B"] == (30, 0)


def test_plain_items_come_in_part_and_the_rest_stays_promised(phone: Any, trade: Trade) -> None:
    page = phone(f"/trades/{trade.pk}/")
    fits_and_is_sound(page)
    page.get_by_text("They came, or a part of them").tap()
    page.get_by_label("How many").locator("visible=true").fill("40")
    page.get_by_role("button", name="Write it down").locator("visible=true").tap()
    expect(page.get_by_text("40 of 66 came; the rest by", exact=False)).to_be_visible()
    expect(page.get_by_text("60 are still to be made: 20 plain items are missing.")).to_be_visible()
