"""A grant on a phone, from the application to the report."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect

from partners.funding.buying_actions import Bought, record_receipt, write_slip
from partners.funding.grant_models import Grant
from partners.program.models import Membership
from tests.people import make_desk, make_school

pytestmark = pytest.mark.django_db(transaction=True)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


def sound(page: Page) -> None:
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    found = Axe().run(page, options=RULES).response["violations"]
    assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []


def buy(june: Membership, grant: Grant) -> None:
    """Clay for 300.00 and its shipping for 52.50, charged to the first line."""
    desk = make_desk(june.program, timezone.localdate())
    purchase = write_slip(desk=desk, vendor="Hollow Creek Clay", what="clay", grant=grant)
    line = grant.lines.get(what="clay")
    goods = Bought(what="clay", cents=30_000, grant_line=line)
    shipping = Bought(what="shipping", cents=5_250, kind="shipping", grant_line=line)
    record_receipt(desk=desk, purchase=purchase, lines=[goods, shipping], bought_on=desk.day, receipt_number="20417")


def test_a_grant_from_ask_to_report(browser: Browser, live_server: Any, june: Membership) -> None:
    make_school(june.program)
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    context.add_cookies([{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}])
    page = context.new_page()
    page.goto(live_server.url + reverse("funding:grant-list"))
    page.locator("main").get_by_role("link", name="Write an application").last.click()
    page.get_by_label("Grantmaker").fill("Alder Falls Education Fund")
    page.get_by_label("What for").fill("clay tiles")
    page.get_by_label("Asked for").fill("500")
    page.get_by_text("More lines", exact=True).click()
    for number, (what, cost) in enumerate((("clay", "360"), ("tools", "98")), start=1):
        line = page.get_by_role("group", name=f"Line {number}", exact=True)
        line.get_by_label("What").fill(what)
        line.get_by_label("Costs").fill(cost)
    sound(page)
    page.get_by_role("button", name="Save").click()
    # By hand: 360.00 + 98.00 = 458.00, and 500.00 - 458.00 = 42.00.
    expect(page.get_by_text("$42.00 stands in no line.")).to_be_visible()
    page.locator("main").get_by_role("link", name="It was handed in").click()
    page.get_by_label("That is right").check()
    page.get_by_role("button", name="Save").click()
    page.locator("main").get_by_role("link", name="They answered").click()
    page.get_by_label("They award it").check()
    page.get_by_label("How much").fill("458.00")
    page.get_by_label("Spend by").fill(str(timezone.localdate() + timedelta(days=60)))
    sound(page)
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_text("Thanks to Alder Falls Education Fund are on your list.")).to_be_visible()
    buy(june, Grant.objects.get())
    page.get_by_role("link", name="A change was agreed").click()
    page.get_by_label("Which line").select_option("tools")
    page.get_by_label("It is spent on this instead").fill("glaze")
    page.get_by_label("Who at the grantmaker agreed").fill("Ada Quill")
    page.get_by_role("button", name="Save").click()
    # By hand: 300.00 + 52.50 = 352.50 of 458.00 leaves 105.50, of it 7.50 for clay.
    expect(page.get_by_role("row", name="clay")).to_contain_text("$7.50")
    expect(page.get_by_role("link", name="Spend the $105.50 that is left")).to_be_visible()
    sound(page)
    page.get_by_text("They pay only on receipts").click()
    page.get_by_role("button", name="It is claimed").click()
    page.get_by_role("link", name="Write the report").click()
    expect(page.get_by_label("The letter")).to_have_value(
        "On " + timezone.localdate().strftime("%B %-d, %Y") + " you awarded our students $458.00 for “clay tiles”. "
        "We had asked for $500.00.\n\nWith it we bought clay. $352.50 of it is spent, and $105.50 is left, as the "
        "lines below show.\n\nThank you for making it possible."
    )
    page.go_back()
    page.get_by_role("button", name="The report is handed in").click()
    expect(page.get_by_text("The report is handed in.")).to_be_visible()
    grant = Grant.objects.get()
    assert (grant.claimed_on, grant.reported_on) == (timezone.localdate(), timezone.localdate())
    context.close()
