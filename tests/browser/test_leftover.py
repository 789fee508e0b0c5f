"""Spending what is left on a phone: typed, worked out, kept by its address, with script and without."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Browser, expect

from partners.program.models import Membership
from partners.wish_list.models import Need
from tests.browser.variants import with_script_and_nightly_without

pytestmark = pytest.mark.django_db(transaction=True)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


@with_script_and_nightly_without
def test_a_leftover_is_worked_out_on_a_phone(
    browser: Browser, live_server: Any, june: Membership, script: bool
) -> None:
    Need.objects.create(program=june.program, what="foam brushes", quantity=72, pack_size=24, pack_cents=1199)
    Need.objects.create(program=june.program, what="terracotta pots", quantity=40, pack_cents=150)
    Need.objects.create(program=june.program, what="clay", quantity=4)
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(viewport={"width": 360, "height": 740}, java_script_enabled=script)
    context.add_cookies([{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}])
    page = context.new_page()
    page.goto(live_server.url + reverse("wish_list:need-list"))
    page.get_by_role("link", name="Spend what is left").click()
    page.get_by_label("How much is left").fill("40.00")
    page.get_by_label("more important: foam brushes").check()
    page.get_by_role("button", name="Work it out").click()
    # By hand: three packs are 35.97, and two pots take 3.00 of the 4.03 left.
    answer = page.get_by_role("region", name="With $40.00")
    expect(answer).to_be_visible()
    page.reload()
    expect(answer.get_by_role("row", name="terracotta pots")).to_contain_text("$3.00")
    expect(answer).to_contain_text("$38.97")
    expect(answer).to_contain_text("$0.47 more would do: it brings 1 × terracotta pots.")
    expect(page.get_by_label("more important: foam brushes")).to_be_checked()
    if script:
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        found = Axe().run(page, options=RULES).response["violations"]
        assert [(one["id"], [node["target"] for node in one["nodes"]]) for one in found] == []
        # A long error keeps within the page, too.
        page.set_viewport_size({"width": 320, "height": 740})
        page.get_by_label("A pack costs: foam brushes").fill("-12.00")
        page.get_by_label("How much is left").fill("60,000,000")
        page.get_by_role("button", name="Work it out").click()
        expect(page.get_by_role("group", name="Please mend this")).to_contain_text("more than this book keeps")
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
    context.close()
