"""The Year page on a phone, light and dark: within its width, read by machines, its numbers leading to their rows."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, expect

from partners.program.models import Membership
from tests import people
from tests.year import cast

pytestmark = pytest.mark.django_db(transaction=True)
# Only colors are others in the dark.
SCHEMES: dict[Any, Any] = {
    "light": {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]},
    "dark": {"runOnly": {"type": "rule", "values": ["color-contrast"]}},
}


def test_the_year_is_read_on_a_phone(browser: Browser, live_server: Any, june: Membership) -> None:
    today = timezone.localdate()
    desk = people.make_desk(june.program, day=today, user=june.user)
    partner = people.make_partner(
        june.program, "Riverbend Garden Center and Nursery of Alder Falls", business_kind="garden"
    )
    for _time in range(6):
        cast.ask(desk, partner, "yes", today)
    cast.gift(desk, partner, today)
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=True)
    context.add_cookies([{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}])
    page = context.new_page()
    page.goto(live_server.url + reverse("year:year"))
    for summary in page.locator("main summary").all():
        summary.click()
    for scheme, rules in SCHEMES.items():
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=rules).response["violations"]
        assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.set_viewport_size({"width": 320, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    page.get_by_role("link", name="goods: 1").click()
    expect(page.get_by_role("table", name="Gifts")).to_contain_text("mat board offcuts")
    context.close()
