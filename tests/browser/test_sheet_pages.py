"""Sheets as pages in a real browser: nothing for the accessibility checker to find, nothing too wide for a phone."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Browser

from partners.gifts.actions import Line, receive
from partners.program.models import Membership
from tests import people

pytestmark = pytest.mark.django_db(transaction=True)
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


def test_sheets_are_read_as_pages_on_a_phone(browser: Browser, live_server: Any, june: Membership) -> None:
    desk = people.make_desk(june.program, user=june.user)
    school, partner = people.make_school(june.program), people.make_partner(june.program)
    lines = [Line(description="terracotta pots", quantity=60)]
    gift = receive(desk=desk, source="partner", partner=partner, day=date(2026, 10, 5), form="goods", lines=lines)
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(viewport={"width": 360, "height": 740})
    context.add_cookies([{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}])
    page = context.new_page()
    for slug, pk in [
        ("leave-behind", partner.pk),
        ("gratitude-letter", gift.pk),
        ("family-letter", school.pk),
        ("letter-approval", school.pk),
    ]:
        page.goto(live_server.url + reverse("outreach:document-page", args=[slug, pk]))
        found = Axe().run(page, options=RULES)
        assert found.violations_count == 0, f"{slug}: {found.generate_report()}"
        assert page.evaluate("document.documentElement.scrollWidth") <= 360, slug
        page.emulate_media(media="print")
        assert not page.get_by_role("link", name="Print").is_visible()
        page.emulate_media(media="screen")
    context.close()
