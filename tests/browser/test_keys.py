"""The book by keyboard alone: every stop is in sight, nothing is lost where a part of a page is swapped."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from partners.directory.actions import add_partner
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.visits.models import Visit
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db(transaction=True)
PHONE = (360, 740)
# The name of what has the focus, and whether its middle lies in the window with nothing of another part over it.
STOP = """() => {
  const at = document.activeElement;
  const seen = getComputedStyle(at).opacity === "0" ? at.nextElementSibling : at;
  const box = seen.getBoundingClientRect();
  const over = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 12));
  const words = at.matches("[role=region]") ? "" : at.textContent;
  const label = at.labels && at.labels.length ? at.labels[0].textContent : words;
  const named = at.matches("[tabindex]") || seen.contains(over) || at.contains(over);
  return [(at.getAttribute("aria-label") || label || at.name || "").replace(/\\s+/g, " ").trim(), Boolean(named)];
}"""


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, day=timezone.localdate(), user=june.user)


def tab_to(page: Page, words: str, key: str = "Tab") -> None:
    """Presses Tab until what has the focus is called so; each stop on the way has to be in sight."""
    passed = []
    for _press in range(80):
        page.keyboard.press(key)
        name, in_sight = page.evaluate(STOP)
        assert in_sight, f"{name!r} has the focus and is hidden"
        if words in name:
            return
        passed.append(name)
    pytest.fail(f"{words!r} was not reached: {passed}")


def test_a_line_of_today_is_settled_and_taken_back(window: Any, own: Desk, client: Any) -> None:
    row = make_line(own, "promises.ours", own.day - timedelta(days=3))
    client.session.save()  # nobody is signed in yet
    page = window(client, "/sign-in/", PHONE)
    expect(page.get_by_label("Username")).to_be_focused()
    page.keyboard.type("june")
    page.keyboard.press("Tab")
    page.keyboard.type(people.SECRET)
    with page.expect_navigation():
        page.keyboard.press("Enter")
    expect(page.locator("li.due")).to_have_count(1)
    tab_to(page, "Menu")
    page.keyboard.press("Enter")
    tab_to(page, "Wish list")
    page.keyboard.press("Escape")
    expect(page.locator(".fold > summary")).to_be_focused()
    expect(page.locator(".fold .bar")).to_be_hidden()
    tab_to(page, "Handed over: Partner")
    page.keyboard.press("Enter")
    expect(page.locator("li.due")).to_have_count(0)
    expect(page.locator("#messages")).to_be_focused()
    tab_to(page, "Undo")
    page.keyboard.press("Enter")
    expect(page.locator(f"#line-promises-ours-{row.pk}")).to_be_visible()


def test_a_visit_is_logged_at_a_place_that_is_found_while_typing(opened: Any, own: Desk) -> None:
    for name in ("Bluebird Bakery", "Blue Door Books"):
        add_partner(desk=own, name=name)
    page = opened("/visits/new/", PHONE)
    tab_to(page, "Another place")
    page.keyboard.type("blue")
    expect(page.locator(".found")).to_contain_text("2 found")
    page.keyboard.press("ArrowDown")
    expect(page.locator(".found input").first).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator("[data-typed]").first).to_be_focused()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    picked = page.locator(".found .choice:has(:checked)").inner_text()
    tab_to(page, "Yes")
    page.keyboard.press("ArrowLeft")
    expect(page.get_by_role("radio", name="Just hello")).to_be_checked()
    tab_to(page, "One line of note")
    page.keyboard.type("Come back after the fair.")
    tab_to(page, "Save the visit")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Saved")
    assert picked.startswith(Visit.objects.get(note="Come back after the fair.").partner.name)


def test_lines_of_the_review_are_ticked_settled_taken_back_and_moved(opened: Any, own: Desk) -> None:
    rows = [make_line(own, "promises.ours", own.day - timedelta(days=9 - n)) for n in range(3)]
    for _n in range(3):
        make_line(own, "gifts.hand-in", own.day)
    receipt = make_line(own, "funding.receipt", own.day)
    page = opened("/review/")
    for number in (0, 1):
        tab_to(page, f"Partner {number}, tags")
        page.keyboard.press("Space")
    tab_to(page, "More: Partner 2")
    page.keyboard.press("Enter")
    tab_to(page, "It will not be: Partner 2")
    page.keyboard.press("Escape")
    expect(page.locator(".more[open]")).to_have_count(0)
    tab_to(page, "Done")
    page.keyboard.press("Enter")
    expect(page.locator("tr.settled")).to_have_count(2)
    expect(page.locator("#messages")).to_be_focused()
    page.keyboard.press("Tab")
    expect(page.locator("#messages").get_by_role("button", name="Undo")).to_be_focused()
    tab_to(page, f"Undo all 2: {rows[1].partner.name}")
    page.keyboard.press("Enter")
    expect(page.locator("tr.settled")).to_have_count(0)
    expect(page.locator(f"#act-promises-ours-{rows[1].pk}")).to_be_focused()
    tab_to(page, "More: Partner 2")
    page.keyboard.press("Enter")
    tab_to(page, "To which day: Partner 2")
    page.keyboard.type((own.day + timedelta(days=70)).strftime("%m%d%Y"))
    page.keyboard.press("Enter")
    expect(page.locator("#tally")).to_have_text("1 moved")
    expect(page.locator(f"#act-promises-ours-{rows[2].pk}")).to_be_focused()
    tab_to(page, "Tick: Hand to the office")
    page.keyboard.press("Space")
    later = (own.day + timedelta(days=70)).isoformat()
    page.locator(f"#more-funding-receipt-{receipt.pk}").press("Enter")
    page.locator(f"#move-funding-receipt-{receipt.pk}").fill(later)
    tab_to(page, "Each of the 3", "Shift+Tab")
    page.keyboard.press("Enter")
    tab_to(page, "Handed in: Partner")
    page.keyboard.press("Enter")
    expect(page.locator("details.each[open] > summary")).to_contain_text("Each of the 2")
    expect(page.locator("details.each[open] > summary")).to_be_focused()
    expect(page.locator(f"#move-funding-receipt-{receipt.pk}")).to_be_visible()
    expect(page.locator(f"#move-funding-receipt-{receipt.pk}")).to_have_value(later)
    expect(page.get_by_role("checkbox", name="Tick: Hand to the office")).to_be_checked()
    expect(page.locator("#tally")).to_have_text("1 settled, 1 moved")
