"""Today and the monthly review in a real browser: settling where the line stands, with script and without."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.utils import timezone
from playwright.sync_api import Page, expect

from partners.program.desk import Desk
from partners.program.models import Membership
from partners.visits.actions import record_visit
from tests import people
from tests.agenda.books import make_line
from tests.browser.variants import with_script_and_nightly_without

pytestmark = pytest.mark.django_db(transaction=True)
TODAY, REVIEW = "/", "/review/"
PHONE, TABLE = (360, 740), (1280, 860)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, day=timezone.localdate(), user=june.user)


def fill(desk: Desk, count: int) -> list[str]:
    """So many tags to make, the oldest first; the ids of their lines."""
    rows = [make_line(desk, "promises.ours", desk.day - timedelta(days=30 - n)) for n in range(count)]
    return [f"line-promises-ours-{row.pk}" for row in rows]


def top_of(page: Page, line: str) -> float:
    """Where the line is within the window, in pixels from its top."""
    found = page.locator(f"#{line}").evaluate("row => row.getBoundingClientRect().top")
    return float(found)


def test_settling_swaps_only_the_line_and_keeps_place_and_focus(opened: Any, own: Desk) -> None:
    lines = fill(own, 12)
    page = opened(REVIEW)
    row = page.locator(f"#{lines[6]}")
    row.scroll_into_view_if_needed()
    page.evaluate(f"window.neighbour = document.getElementById('{lines[7]}')")
    before = top_of(page, lines[6])
    row.get_by_role("button", name="Handed over").focus()
    page.keyboard.press("Enter")
    expect(page.locator("tr.settled")).to_have_count(1)
    expect(page.locator(f"#{lines[6]}.settled")).to_contain_text("Handed over")
    assert page.evaluate("window.neighbour.isConnected")
    assert abs(top_of(page, lines[6]) - before) < 100
    expect(page.locator(f"#{lines[6]}").get_by_role("button", name="Undo")).to_be_focused()
    expect(page.locator("#tally")).to_have_text("1 settled")
    expect(page.locator("#messages")).to_contain_text("Partner 6, tags: Handed over")


def test_undo_opens_the_line_where_it_stands(opened: Any, own: Desk) -> None:
    lines = fill(own, 3)
    page = opened(REVIEW)
    page.locator(f"#{lines[1]}").get_by_role("button", name="Handed over").click()
    page.locator(f"#{lines[1]}").get_by_role("button", name="Undo").click()
    expect(page.locator("tr.settled")).to_have_count(0)
    expect(page.locator(f"#{lines[1]}").get_by_role("button", name="Handed over")).to_be_focused()
    expect(page.locator("#tally")).to_have_text("Nothing settled yet today.")


@with_script_and_nightly_without
def test_a_line_is_moved_to_a_day(opened: Any, own: Desk, script: bool) -> None:
    lines = fill(own, 3)
    page = opened(REVIEW, java_script_enabled=script)
    row = page.locator(f"#{lines[0]}")
    row.locator("summary").click()
    far = own.day + timedelta(days=70)
    row.get_by_label("To which day").fill(far.isoformat())
    row.get_by_role("button", name="Move to…").click()
    expect(page.locator(f"#{lines[0]}.settled")).to_contain_text(f"Moved to {far:%B} {far.day}")
    expect(page.locator("#tally")).to_have_text("1 moved")


@with_script_and_nightly_without
def test_enter_in_the_day_moves_the_line_and_presses_no_other_button(opened: Any, own: Desk, script: bool) -> None:
    lines = fill(own, 2)
    page = opened(REVIEW, java_script_enabled=script)
    row = page.locator(f"#{lines[0]}")
    row.locator("summary").click()
    row.get_by_label("To which day").fill((own.day + timedelta(days=70)).isoformat())
    row.get_by_label("To which day").press("Enter")
    expect(page.locator(f"#{lines[0]}.settled")).to_contain_text("Moved to")
    expect(page.locator("#tally")).to_have_text("1 moved")


@with_script_and_nightly_without
def test_a_button_behind_more_does_what_it_says_once(opened: Any, own: Desk, script: bool) -> None:
    lines = fill(own, 2)
    page = opened(REVIEW, java_script_enabled=script)
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.url) if request.method == "POST" else None)
    row = page.locator(f"#{lines[0]}")
    row.locator("summary").click()
    row.get_by_role("button", name="It will not be").click(click_count=2 if script else 1)
    expect(page.locator(f"#{lines[0]}.settled")).to_contain_text("It will not be")
    assert len(sent) == 1


def test_without_script_the_page_comes_back_to_the_line(opened: Any, own: Desk) -> None:
    lines = fill(own, 25)
    for _n in range(3):
        make_line(own, "gifts.hand-in", own.day)
    page = opened(REVIEW, PHONE, java_script_enabled=False)
    page.locator(f"#{lines[20]}").get_by_role("button", name="Handed over").click()
    expect(page.locator(f"#{lines[20]}.settled")).to_be_in_viewport()
    assert page.url.endswith(f"{REVIEW}#{lines[20]}")
    page.locator(f"#{lines[20]}").get_by_role("button", name="Undo").click()
    expect(page.locator(f"#{lines[20]}")).to_be_in_viewport()
    expect(page.locator("tr.settled")).to_have_count(0)
    fold = page.locator("details.each")
    fold.locator("summary").first.click()
    fold.get_by_role("button", name="Handed in").first.click()
    expect(fold.get_by_role("button", name="Handed in")).to_have_count(2)
    expect(fold.get_by_role("button", name="Handed in").first).to_be_in_viewport()


@pytest.mark.parametrize("script", [True, False])
def test_many_lines_are_ticked_and_settled_at_once(opened: Any, own: Desk, script: bool) -> None:
    fill(own, 4)
    page = opened(REVIEW, java_script_enabled=script)
    if script:
        page.get_by_role("button", name="Tick all").click()
    else:
        for box in page.get_by_role("checkbox").all():
            box.check()
    page.locator("#many").get_by_role("button", name="Done").click()
    expect(page.locator("tr.settled")).to_have_count(4)
    expect(page.locator("#tally")).to_have_text("4 settled")
    page.locator("#messages").get_by_role("button", name="Undo").click()
    expect(page.locator("tr.settled")).to_have_count(0)


def test_today_is_fetched_anew_when_a_line_is_settled(opened: Any, own: Desk) -> None:
    lines = fill(own, 9)
    page = opened(TODAY, PHONE)
    expect(page.locator("li.due")).to_have_count(7)
    expect(page.get_by_role("link", name="2 more: review")).to_be_visible()
    page.locator(f"#{lines[0]}").get_by_role("button", name="Handed over").click()
    expect(page.locator(f"#{lines[0]}")).to_have_count(0)
    expect(page.locator("li.due")).to_have_count(7)
    expect(page.get_by_role("link", name="1 more: review")).to_be_visible()
    assert page.evaluate("document.activeElement !== document.body")


@pytest.mark.parametrize("path", [TODAY, REVIEW])
def test_a_button_that_opens_a_page_opens_it(opened: Any, own: Desk, path: str) -> None:
    make_line(own, "gifts.thanks", own.day)
    page = opened(path)
    page.get_by_role("link", name="Write the letter").click()
    expect(page.get_by_role("link", name="Print")).to_be_visible()


def test_a_press_while_it_is_saved_settles_once(opened: Any, own: Desk) -> None:
    lines = fill(own, 2)
    page = opened(REVIEW)
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.url) if request.method == "POST" else None)
    button = f"document.querySelector('#{lines[0]} form button')"
    page.evaluate(f"() => {{ {button}.click(); {button}.click(); }}")
    expect(page.locator("tr.settled")).to_have_count(1)
    assert len(sent) == 1


def test_what_was_settled_elsewhere_is_told(opened: Any, own: Desk) -> None:
    lines = fill(own, 2)
    page = opened(REVIEW)
    other = opened(REVIEW)
    other.locator(f"#{lines[0]}").get_by_role("button", name="Handed over").click()
    expect(other.locator("tr.settled")).to_have_count(1)
    page.locator(f"#{lines[0]}").get_by_role("button", name="Handed over").click()
    expect(page.locator("#messages")).to_contain_text("That is settled already.")
    expect(page.locator(f"#{lines[0]}.settled")).to_have_count(1)


@pytest.mark.parametrize("size", [(320, 640), pytest.param(TABLE, marks=pytest.mark.nightly)])
@pytest.mark.parametrize("path", [REVIEW, pytest.param(TODAY, marks=pytest.mark.nightly)])
def test_everybody_can_use_it(opened: Any, own: Desk, path: str, size: tuple[int, int]) -> None:
    for slug in ("visits.follow-up", "promises.theirs", "gifts.thanks", "gifts.accept", "directory.quiet"):
        make_line(own, slug, own.day - timedelta(days=3))
    make_line(own, "promises.theirs", own.day)
    page = opened(path, size)
    if path == REVIEW:
        page.get_by_role("button", name="Log").or_(page.locator("tr.due summary")).first.click()
        page.locator("tr.due").get_by_role("button", name="Said in person").first.click()
        expect(page.locator("tr.settled")).to_have_count(1)
    found = Axe().run(page, options=RULES)
    assert [one["id"] for one in found.response["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


def test_it_prints_for_the_principal_without_notes_or_buttons(opened: Any, own: Desk) -> None:
    row = make_line(own, "promises.theirs", own.day)
    record_visit(desk=own, partner=row.partner, happened="hello", day=own.day, note="Dana was upset.")
    page = opened(REVIEW)
    expect(page.get_by_text("Dana was upset.")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_text("Dana was upset.")).to_be_hidden()
    expect(page.locator("#many")).to_be_hidden()
    expect(page.locator("tr.due .acts")).to_be_hidden()
    expect(page.get_by_role("link", name="Partner 0").first).to_be_visible()


def test_paper_says_how_a_line_was_settled(opened: Any, own: Desk) -> None:
    lines = fill(own, 1)
    page = opened(REVIEW)
    page.locator(f"#{lines[0]}").get_by_role("button", name="Handed over").click()
    expect(page.locator("tr.settled .printed")).to_be_hidden()
    page.emulate_media(media="print")
    expect(page.locator("tr.settled .printed")).to_have_text("Handed over")
    expect(page.locator("tr.settled .printed")).to_be_visible()
