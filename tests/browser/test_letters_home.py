"""Letters home and forgetting in a real browser: the grade while typing, and two questions before it is done."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Browser, Page, expect

from partners.directory.actions import add_contact, add_partner
from partners.program.models import Membership
from partners.wish_list.actions import add_need
from tests import people
from tests.dump import holding

pytestmark = pytest.mark.django_db(transaction=True)
PHONE, TABLE = (360, 740), (1280, 860)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}
LONG = "We will use every single one of these many small things for puppets that all the children make."


@pytest.fixture
def opened(browser: Browser, live_server: Any, june: Membership) -> Iterator[Any]:
    """Opens an address as June sees it, at a size."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    value = client.cookies["sessionid"].value
    contexts = []

    def open_page(path: str, size: tuple[int, int] = TABLE) -> Page:
        context = browser.new_context(viewport={"width": size[0], "height": size[1]})
        context.add_cookies([{"name": "sessionid", "value": value, "url": live_server.url}])
        contexts.append(context)
        page = context.new_page()
        page.goto(live_server.url + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


def is_accessible(page: Page) -> None:
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]  # type: ignore[index]


def test_the_grade_follows_the_typing_and_long_sentences_are_marked(opened: Any, june: Membership) -> None:
    school = people.make_school(june.program)
    add_need(desk=people.make_desk(june.program, user=june.user), what="egg cartons", household=True)
    page = opened(reverse("outreach:document-prepare", args=["family-letter", school.pk]), PHONE)
    is_accessible(page)
    expect(page.locator("#reading mark")).to_have_count(0)
    page.get_by_label("A few words of your own").press_sequentially(LONG)
    expect(page.locator("#reading mark")).to_have_text(LONG)
    expect(page.get_by_label("A few words of your own")).to_be_focused()


def test_somebody_is_forgotten_by_keyboard_after_two_questions(opened: Any, june: Membership) -> None:
    desk = people.make_desk(june.program, user=june.user)
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    contact = add_contact(desk=desk, partner=partner, name="Zeferina Quiñónez", phone="+12015550177")
    page = opened(reverse("directory:contact-edit", args=[contact.pk]), PHONE)
    page.get_by_role("link", name="They ask to be forgotten").press("Enter")
    is_accessible(page)
    page.get_by_role("button", name="Go on").press("Enter")
    is_accessible(page)
    page.get_by_label("I know that this cannot be taken back.").press("Space")
    page.get_by_role("button", name="Forget them for good").press("Enter")
    expect(page.get_by_text("It is done")).to_be_visible()
    expect(page.get_by_role("button", name="Undo")).to_have_count(0)
    assert holding("Zeferina", "Quiñónez", "2015550177") == []
