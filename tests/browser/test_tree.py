"""What a screen reader is told of the main screens, and what axe finds on every page."""

from __future__ import annotations

import re
from collections import Counter
from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.utils import timezone
from playwright.sync_api import Page

from partners.visits.actions import record_visit
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db(transaction=True)
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# Not led to by a link, or only in the state that an answer was missing.
BESIDES = ["/components/?bound=yes", "/visits/new/?partner=1", "/no-such-page/", "/find/?q=mari"]
# Sent as they stand, each comes back with what is missing.
REFUSED = [
    "/visits/new/", "/gifts/new/", "/promises/new/", "/trades/new/", "/partners/new/", "/wish-list/new/",
    "/helpers/new/", "/helpers/sessions/new/", "/money/grants/new/", "/money/buying/new/", "/schools/new/",
    "/projects/new/", "/members/new/",
]  # fmt: skip
SEND = """() => {
  const form = document.querySelector("main form[method=post]");
  form.noValidate = true;
  for (const field of form.querySelectorAll("[required]")) field.value = "";
  form.requestSubmit();
}"""
# The page comes back with little more than what is wrong; axe itself is sent once to each page.
RUN = "options => axe.run(options).then(({ violations }) => violations.map(one => [one.id, one.nodes[0].target]))"
# So high that no bar at the foot lies over a field: what is covered can be scrolled to.
DESK, PHONE = {"width": 1280, "height": 900}, {"width": 360, "height": 4000}
ON_A_PHONE = ["color-contrast", "target-size", "scrollable-region-focusable", "label", "link-name", "button-name"]
NAMED = re.compile(r'- (button|checkbox|heading|region|navigation) "((?:[^"\\\\]|\\\\.)*)"')


def told(page: Page) -> list[tuple[str, str]]:
    """Role and name of what can be pressed or leapt to, in the order in which it is read."""
    return NAMED.findall(page.locator("body").aria_snapshot())


def faults(page: Page) -> list[tuple[str, Any]]:
    """What axe finds at a desk by day and on a phone by night."""
    page.set_viewport_size(DESK)
    page.emulate_media(color_scheme="light")
    page.evaluate(Axe().axe_script)
    found = page.evaluate(RUN, {"runOnly": RULES, "resultTypes": ["violations"]})
    page.set_viewport_size(PHONE)
    page.emulate_media(color_scheme="dark")
    return found + page.evaluate(RUN, {"runOnly": ON_A_PHONE, "resultTypes": ["violations"]})


@pytest.fixture
def book(june: Any) -> Any:
    """Two places, each with two lines of the same kind, and a visit."""
    desk = people.make_desk(june.program, day=timezone.localdate(), user=june.user)
    rows = [make_line(desk, slug, desk.day - timedelta(days=3)) for slug in ("promises.ours", "promises.theirs") * 2]
    record_visit(desk=desk, partner=rows[0].partner, happened="hello", day=desk.day)
    return rows[0].partner


def test_every_button_of_a_main_screen_says_about_what(opened: Any, book: Any) -> None:
    page = opened("/")
    for path in ("/", "/review/", f"/partners/{book.pk}/", "/partners/", "/visits/new/", "/gifts/new/"):
        page.goto(path)
        names = Counter(one for one in told(page) if one[0] in ("button", "checkbox"))
        assert [one for one, count in names.items() if count > 1 or not one[1]] == [], path


def test_main_screens_are_read_in_their_order(opened: Any, book: Any) -> None:
    page = opened("/")
    heads = {}
    for path in ("/", "/review/", "/visits/new/", "/gifts/new/", "/partners/"):
        page.goto(path)
        heads[path] = [name for role, name in told(page) if role == "heading"]
        assert [name for role, name in told(page) if role == "navigation"] == ["Book"], path
    assert heads["/"][1:] == ["To do, the most pressing first", "Bring"]
    assert heads["/review/"] == ["Monthly review", "Collect", "Make"]
    assert [heads[path] for path in ("/visits/new/", "/gifts/new/", "/partners/")] == [
        ["Log a visit"], ["Something arrived"], ["Partners"],
    ]  # fmt: skip


@pytest.mark.nightly
def test_axe_finds_nothing_on_any_page(demo_opened: Any) -> None:
    page, addresses = demo_opened()
    found = {}
    for path in [*addresses, *BESIDES]:
        page.goto(path)
        found[path] = faults(page)
    for path in REFUSED:
        page.goto(path)
        with page.expect_navigation():
            page.evaluate(SEND)
        assert page.locator("[data-error-summary]").count() == 1, path
        found[f"{path} refused"] = faults(page)
    assert {path: wrong for path, wrong in found.items() if wrong} == {}
    assert len(addresses) > 150
