"""The parts of every page in a real browser: their look, their reach, and settling a line where it stands."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, expect

from partners.program.models import Membership
from partners.visits.actions import plan_follow_up
from tests import people
from tests.browser.measured import FAULTS, faults

pytestmark = pytest.mark.django_db(transaction=True)
SMALLEST = (320, 256)
LARGER = [
    pytest.param(size, "light", marks=pytest.mark.nightly) for size in (SMALLEST, (360, 740), (768, 1024), (1280, 860))
]


@pytest.fixture
def due(june: Membership) -> None:
    """One follow-up that should have been made."""
    today = timezone.localdate()
    desk = people.make_desk(june.program, day=today, user=june.user)
    partner = people.make_partner(june.program)
    plan_follow_up(desk=desk, partner=partner, base=today - timedelta(days=30))


@pytest.mark.parametrize(("size", "scheme"), [(SMALLEST, "dark"), *LARGER])
def test_every_part_is_within_reach(opened: Any, size: tuple[int, int], scheme: str) -> None:
    page = opened(reverse("program:components") + "?bound=yes", size, color_scheme=scheme)
    found = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]})
    assert [one["id"] for one in found.response["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


def test_a_missing_answer_is_read_first_and_one_press_away(opened: Any) -> None:
    page = opened(reverse("program:components") + "?bound=yes")
    expect(page.locator("[data-error-summary]")).to_be_focused()
    page.locator(".summary a[href='#id_happened']").click()
    expect(page.locator("#id_happened_0")).to_be_focused()


def test_a_double_press_sends_once(opened: Any) -> None:
    page = opened(reverse("program:components"))
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.url) if request.method == "POST" else None)
    # Nothing answers here, and a page that is closed on its way to an error may never say that it is: 204 lets it stay.
    page.route("**", lambda route: route.fulfill(status=204) if route.request.method == "POST" else route.continue_())
    with page.expect_response(lambda answer: answer.request.method == "POST"):
        page.evaluate("() => { const b = document.querySelector('.form-end button'); b.click(); b.click(); }")
    assert len(sent) == 1


@pytest.mark.parametrize("script", [True, False])
def test_a_line_is_settled_and_taken_back(opened: Any, due: None, script: bool) -> None:
    page = opened(reverse("agenda:review"), java_script_enabled=script)
    page.locator("tr.due summary").click()
    page.locator("tr.due").get_by_role("button", name="Done").click()
    expect(page.locator("tr.settled")).to_have_count(1)
    expect(page.locator("#messages")).to_contain_text("Undo")
    page.locator("tr.settled").get_by_role("button", name="Undo").click()
    expect(page.locator("tr.settled")).to_have_count(0)
    expect(page.locator("tr.due")).to_have_count(1)


def test_without_script_the_bar_unfolds_on_a_phone(opened: Any) -> None:
    page = opened(reverse("program:components"), (360, 740), java_script_enabled=False)
    page.locator(".fold summary").click()
    expect(page.locator(".fold .bar a").first).to_be_visible()


def test_no_line_of_the_page_breaks_the_content_policy(opened: Any) -> None:
    page = opened(reverse("program:components"))
    refused: list[str] = []
    page.on("console", lambda said: refused.append(said.text) if "Content Security Policy" in said.text else None)
    page.reload()
    page.wait_for_load_state("networkidle")
    assert refused == []


def test_all_of_a_page_is_seen_and_hit_at_every_width_and_enlarged(opened: Any, due: None) -> None:
    page = opened("/")
    assert [one for path in ("/review/", "/components/?bound=yes") for one in faults(page, path)] == []


def test_what_cannot_be_seen_or_hit_is_found(browser: Browser) -> None:
    page = browser.new_page(viewport={"width": 320, "height": 640})
    page.set_content("""<!DOCTYPE html>
        <p style="width: 4rem; overflow: hidden; white-space: nowrap">Alder Falls Elementary</p>
        <button style="width: 3rem; height: 2rem; white-space: nowrap">Something arrived</button>
        <details><summary style="display: block; width: 20px; height: 20px">Why</summary>Not seen</details>
        <div style="overflow-x: auto"><p style="width: 90rem">In reach by scrolling</p></div>
        <p style="position: absolute; left: 20rem; white-space: nowrap">Beside the page</p>""")
    assert page.evaluate(FAULTS) == [
        "scrolls sideways",
        "cut off: Alder Falls Elementary",
        "cut off: Something arrived",
        "out of the window: Beside the page",
        "small: Why",
    ]
    page.close()


@pytest.mark.nightly
def test_all_of_every_page_is_seen_and_hit_at_every_width_and_enlarged(demo_opened: Any) -> None:
    page, addresses = demo_opened()
    assert [one for path in addresses for one in faults(page, path)] == []
    assert len(addresses) > 150
