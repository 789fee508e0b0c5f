"""A phone in a place without a signal: what is filled in there is kept, and sent exactly once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from time import sleep
from typing import Any

import pytest
from django.contrib.sessions.models import Session
from django.test import Client
from django.utils import timezone
from playwright.sync_api import Browser, BrowserContext, Page, expect

from partners.agenda.today import today
from partners.directory.actions import add_partner
from partners.gifts.models import Gift
from partners.program.models import Membership
from partners.promises.actions import promise
from partners.promises.models import Promise, Side
from partners.visits.actions import record_visit
from partners.visits.models import Visit
from tests.people import SECRET, make_desk

pytestmark = pytest.mark.django_db(transaction=True)
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
NEW, ARRIVED, KEPT = "/visits/new/", "/gifts/new/", "/kept/"
READY = "async () => { const told = await caches.match('/~owner'); return told ? (await told.json())[1] : 0 }"


@pytest.fixture
def book(june: Membership) -> Any:
    """A framing shop that is known, and a bakery that promised boxes and bags for today."""
    desk = make_desk(june.program, day=timezone.localdate(), user=june.user)
    framing = add_partner(desk=desk, name="Marigold Framing")
    record_visit(desk=desk, partner=framing, happened="hello", day=desk.day)
    bakery = add_partner(desk=desk, name="Bluebird Bakery")
    for what in ("cake boxes", "paper bags"):
        promise(desk=desk, partner=bakery, side=Side.THEM, what=what, quantity=12, due=desk.day, made_on=desk.day)
    return framing


@pytest.fixture
def phone(browser: Browser, live_server: Any, book: Any, june: Membership) -> Iterator[BrowserContext]:
    """June's phone, signed in, with the forms kept ready."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    context = browser.new_context(**PHONE, service_workers="allow", base_url=live_server.url)
    cookie = {"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}
    context.add_cookies([cookie])
    page = context.new_page()
    page.goto("/partners/")
    wait_until_kept(page)
    page.close()
    yield context
    context.close()


def wait_until_kept(page: Page) -> None:
    """Until the phone has fetched all its forms."""
    for _try in range(300):
        if page.evaluate(READY):
            return
        page.wait_for_timeout(100)
    pytest.fail("The forms were not kept.")


def sign_in(page: Page, name: str = "june") -> None:
    page.get_by_label("Username").fill(name)
    page.get_by_label("Password").fill(SECRET)
    page.get_by_role("button", name="Sign in").tap()


def log_visit(page: Page, note: str, answer: str = "Just hello") -> None:
    page.goto(NEW)
    page.get_by_role("radio", name="Marigold Framing").tap()
    page.get_by_role("radio", name=answer).tap()
    page.get_by_label("One line of note").fill(note)
    page.get_by_role("button", name="Save the visit").tap()


def notes() -> list[str]:
    return sorted(Visit.objects.exclude(note="").values_list("note", flat=True))


def test_what_is_filled_in_without_a_signal_is_sent_once_also_by_another_tab(phone: BrowserContext) -> None:
    phone.set_offline(True)
    page = phone.new_page()
    for note in ("first", "second"):
        log_visit(page, note)
        expect(page.get_by_role("heading", name="Kept on this device")).to_be_visible()
    expect(page.get_by_text("Kept here: 2, not sent yet.")).to_be_visible()
    page.goto(ARRIVED)
    page.get_by_role("link", name="cake boxes").tap()
    page.get_by_role("button", name="Save what came").tap()
    expect(page.get_by_text("Kept here: 3, not sent yet.")).to_be_visible()
    page.goto("/")
    bakery = page.locator("li.line").filter(has_text="Bluebird Bakery")
    bakery.get_by_role("button", name="All of it came").first.tap()
    expect(page.get_by_text("Kept here: 4, not sent yet.")).to_be_visible()
    assert (notes(), Gift.objects.count()) == ([], 0)
    page.close()

    phone.set_offline(False)
    others = [phone.new_page() for _tab in range(2)]
    for tab in others:
        tab.goto("/partners/", wait_until="commit")
    for tab in others:
        expect(tab.get_by_text("Saved: 4.")).to_be_visible()
    assert notes() == ["first", "second"]
    assert Gift.objects.count() == 2
    assert not Promise.objects.open().exists()


def test_what_waits_outlasts_the_session_and_nobody_else_sends_it(phone: BrowserContext, omar: Membership) -> None:
    phone.set_offline(True)
    page = phone.new_page()
    log_visit(page, "typed in the car park")
    expect(page.get_by_text("Kept here: 1, not sent yet.")).to_be_visible()
    Session.objects.all().delete()
    phone.set_offline(False)
    page.goto("/partners/")
    expect(page.get_by_text("Sign in to send it.")).to_be_visible()
    sign_in(page, "omar")
    expect(page.get_by_text("Signed in as Omar")).to_be_visible()
    page.goto(KEPT)
    expect(page.get_by_text("Nothing is kept here")).to_be_visible()
    page.get_by_role("button", name="Sign out").tap()
    sign_in(page)
    expect(page.get_by_text("Saved: 1.")).to_be_visible()
    assert notes() == ["typed in the car park"]
    assert Visit.objects.get(note="typed in the car park").created_by.username == "june"


def test_what_the_book_refuses_is_shown_whole_outlasts_a_sign_out_is_mended_and_sent(
    phone: BrowserContext, book: Any
) -> None:
    phone.set_offline(True)
    page = phone.new_page()
    log_visit(page, "they move to Mill Street", "Maybe")
    expect(page.get_by_text("Kept here: 1, not sent yet.")).to_be_visible()
    book.visits.all().delete()
    book.delete()
    phone.set_offline(False)
    page.goto(KEPT)
    expect(page.get_by_text("That partner is not in your book.").first).to_be_visible()
    expect(page.get_by_role("definition").filter(has_text="they move to Mill Street")).to_be_visible()
    page.get_by_role("button", name="Sign out").tap()
    page.get_by_role("button", name="Sign out all the same").tap()
    expect(page.get_by_text("Kept here: 1, not sent yet. Sign in to send it.")).to_be_visible()
    phone.set_offline(True)
    page.goto(NEW, wait_until="commit")
    expect(page.get_by_role("heading", name="No signal")).to_be_visible()
    phone.set_offline(False)
    page.goto("/sign-in/")
    sign_in(page)
    page.get_by_role("link", name="Look at it").tap()
    page.get_by_role("link", name="Open it").tap()
    expect(page.get_by_role("group", name="The book did not take this")).to_contain_text("not in your book")
    expect(page.get_by_label("Another place: type its name")).to_have_value("Marigold Framing")
    page.get_by_role("button", name="Save the visit").tap()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Saved")
    assert notes() == ["they move to Mill Street"]
    page.goto(KEPT)
    expect(page.get_by_text("Nothing is kept here")).to_be_visible()


@pytest.mark.nightly
def test_a_slow_page_that_is_not_kept_is_waited_for(phone, monkeypatch):
    def slow(desk: Any) -> dict[str, Any]:
        sleep(6)
        return today(desk)

    monkeypatch.setattr("partners.agenda.views.today", slow)
    page = phone.new_page()
    page.goto(KEPT)
    page.evaluate("async () => (await caches.open('pages')).delete('/')")
    page.goto("/")
    expect(page.get_by_text("No signal")).to_have_count(0)
    expect(page).to_have_title(re.compile("^Today"))


@pytest.mark.nightly
def test_once_something_was_sent_the_signal_is_back(phone):
    phone.set_offline(True)
    page = phone.new_page()
    log_visit(page, "in the car park")
    phone.set_offline(False)
    expect(page.get_by_role("heading", name="Saved")).to_be_visible()
    page.goto(KEPT)
    expect(page.locator("body[data-kept-at]")).to_have_count(0)
