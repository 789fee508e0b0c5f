"""A purchase on a phone, from the slip before it to the money back, with a picture of the receipt."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect

from partners.agenda.check_book import differences
from partners.funding.certificate_actions import add_certificate
from partners.program.models import Membership
from tests import people
from tests.ground.sent_files import photograph

pytestmark = pytest.mark.django_db(transaction=True)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


def sound(page: Page) -> None:
    """Nothing is wider than the phone, and nothing stands in the way of whoever reads it by ear or keyboard."""
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    found = Axe().run(page, options=RULES).response["violations"]
    assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []


def test_a_purchase_goes_from_the_slip_to_the_money_back(browser: Browser, live_server: Any, june: Membership) -> None:
    desk = people.make_desk(june.program, day=timezone.localdate(), user=june.user)
    school = people.make_school(june.program, state="TX", tax_rate=82500, claim_days=30)
    add_certificate(desk=desk, school=school, state="TX", number="EX-0417")
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(viewport={"width": 360, "height": 740})
    context.add_cookies([{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}])
    page = context.new_page()
    page.goto(live_server.url + reverse("funding:purchase-list"))
    page.get_by_role("link", name="I want to buy something").first.click()
    page.get_by_label("Shop", exact=True).fill("Corner Art Supply")
    page.get_by_label("What", exact=True).fill("tempera paint")
    page.get_by_label("About").fill("25")
    page.get_by_label("my own money").check()
    page.get_by_label("authorized me in writing").check()
    page.get_by_label("Certificate shown").select_option(label="TX, Millrace Elementary: EX-0417")
    page.get_by_label("Purchase order number").fill("PO 12")
    page.get_by_role("button", name="Save the slip").click()
    # Texas lets an authorized agent pay, so nothing should be charged.
    expect(page.get_by_text("No sales tax is due", exact=True)).to_be_visible()
    page.get_by_role("link", name="Bought: write down the receipt").click()
    line = page.get_by_role("group", name="Line 1")
    line.get_by_label("What").fill("tempera, 6 pints")
    line.get_by_label("Amount").fill("24.00")
    page.get_by_label("Sales tax charged").fill("1.98")
    page.get_by_label("Total").fill("24.00")
    page.get_by_role("button", name="Save the receipt").click()
    summary = page.get_by_role("group", name="Not saved yet")
    expect(summary).to_contain_text("$1.98 is too much")
    page.get_by_label("Total").fill("25.98")
    sound(page)
    page.get_by_role("button", name="Save the receipt").click()
    expect(page.get_by_text("The school gives 30 days")).to_be_visible()
    page.get_by_role("link", name="Add a picture or paper").click()
    page.locator("input[type=file]").set_input_files(
        {"name": "receipt.jpg", "mimeType": "image/jpeg", "buffer": photograph()}
    )
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("region", name="Pictures and papers").get_by_role("img")).to_be_visible()
    page.get_by_role("button", name="It came back").click()
    expect(page.get_by_text("$1.98 of sales tax saved.")).to_be_visible()
    page.get_by_role("button", name="Handed in").click()
    page.get_by_role("region", name="Your money back").get_by_label("How much").fill("24.00")
    page.get_by_role("button", name="Repaid").click()
    expect(page.get_by_role("list", name="Where it stands")).not_to_contain_text("not yet")
    sound(page)
    context.close()
    assert differences(june.program) == []
