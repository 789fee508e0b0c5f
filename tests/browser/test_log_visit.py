"""Logging a visit on a phone in a car park: how many taps it takes, with script and without, and on a slow line."""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.utils import timezone
from playwright.sync_api import Browser, Page, Route, expect

from partners.asking.gather import verdicts
from partners.directory.actions import add_contact, add_partner
from partners.program.models import Membership
from partners.promises.models import Promise
from partners.visits.actions import Stop, plan_outing, record_visit
from partners.visits.models import OutingStop, Visit
from partners.wish_list.models import Need
from tests.browser.hand import Hand
from tests.browser.variants import narrow_and_nightly_wide
from tests.people import make_desk

pytestmark = pytest.mark.django_db(transaction=True)
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
NEW = "/visits/new/"
OTHERS = ("/outings/", "/outings/new/", "/outings/{outing}/", "/partners/{garden}/may-ask/")


@pytest.fixture
def book(june: Membership) -> dict[str, Any]:
    """A garden center and a bakery on today's outing, and a framing shop that is known."""
    desk = make_desk(june.program, day=timezone.localdate(), user=june.user)
    pots = Need.objects.create(program=june.program, what="terracotta pots", unit="pots", quantity=60)
    partners = [add_partner(desk=desk, name=name) for name in ("Riverbend Garden Center", "Bluebird Bakery")]
    framing = add_partner(desk=desk, name="Marigold Framing")
    add_contact(desk=desk, partner=framing, name="Pat Oduya")
    add_contact(desk=desk, partner=partners[0], name="Dana Whitlock")
    record_visit(desk=desk, partner=framing, happened="hello", day=desk.day)
    known = verdicts(desk, partners, desk.day, pots)
    plan_outing(desk=desk, day=desk.day, stops=[Stop(one, pots, known[one.pk]) for one in partners])
    return {"pots": pots, "garden": partners[0], "bakery": partners[1], "framing": framing}


@pytest.fixture
def phone(browser: Browser, live_server: Any, june: Membership) -> Iterator[Any]:
    """Opens an address of the site as June sees it on her phone."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    cookie = {"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}
    contexts = []

    def open_page(path: str, **kind: Any) -> Page:
        context = browser.new_context(**{**PHONE, **kind})
        context.add_cookies([cookie])
        contexts.append(context)
        page = context.new_page()
        page.goto(live_server.url + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


def saved(page: Page) -> Visit:
    expect(page.get_by_role("heading", level=1)).to_contain_text("Saved")
    return Visit.objects.latest("pk")


def test_a_known_partner_takes_at_most_six_taps_and_one_typed_line(phone: Any, book: Any) -> None:
    hand = Hand(phone("/partners/"))
    hand.tap("Log a visit")
    hand.tap("Marigold Framing")
    expect(hand.page.get_by_text("Pat Oduya")).to_be_attached()
    hand.tap("Maybe")
    hand.tap("Pat Oduya")
    hand.type("One line of note", "Come back after the fair.")
    hand.tap("Save the visit")
    visit = saved(hand.page)
    assert (visit.partner, visit.contact.name, visit.note) == (
        book["framing"],
        "Pat Oduya",
        "Come back after the fair.",
    )
    assert (visit.happened, hand.taps <= 6, hand.keys) == ("maybe", True, len(visit.note))


def test_the_next_place_of_the_outing_takes_four_with_the_planned_ask(phone: Any, book: Any) -> None:
    hand = Hand(phone("/partners/"))
    hand.tap("Log a visit")
    hand.tap("Yes")
    hand.tap("Dana Whitlock")
    hand.tap("Save the visit")
    assert saved(hand.page).partner == book["garden"]
    promise = Promise.objects.get()
    assert (promise.need, promise.quantity, hand.taps, hand.keys) == (book["pots"], 60, 4, 0)
    assert OutingStop.objects.filter(visit__isnull=False).count() == 1
    hand.tap("Next place: Bluebird Bakery")
    expect(hand.page.get_by_text("Bluebird Bakery")).to_be_visible()


def test_a_new_place_is_a_typed_name_and_nothing_else(phone: Any, book: Any) -> None:
    hand = Hand(phone(NEW))
    hand.type("Another place", "Paper Heron Stationers")
    hand.tap("Just hello")
    hand.tap("Save the visit")
    assert (saved(hand.page).partner.name, hand.taps, hand.keys) == ("Paper Heron Stationers", 3, 22)


def test_without_script_it_takes_as_few(phone: Any, book: Any) -> None:
    hand = Hand(phone("/partners/", java_script_enabled=False))
    hand.tap("Log a visit")
    hand.tap("Marigold Framing")
    hand.tap("Maybe")
    hand.type("One line of note", "Come back after the fair.")
    hand.tap("Save the visit")
    visit = saved(hand.page)
    assert (visit.partner, visit.happened) == (book["framing"], "maybe")
    assert (hand.taps <= 6, hand.keys) == (True, len(visit.note))
    assert Promise.objects.count() == 0


def test_only_what_the_answer_asks_for_is_shown(phone: Any, book: Any) -> None:
    page = phone(NEW)
    for answer, shown, hidden in [
        ("Yes", "Collect by", "Back on"),
        ("Maybe", "Back on", "Collect by"),
        ("No", "Never ask again", "Back on"),
        ("They offered something", "What they offered", "Something else"),
        ("Just hello", "One line of note", "Something else"),
    ]:
        page.get_by_role("radio", name=answer, exact=True).tap()
        expect(page.get_by_text(shown).first).to_be_visible()
        expect(page.get_by_text(hidden).first).to_be_hidden()


def test_a_name_like_a_known_one_is_asked_about_and_one_tap_saves_it(phone: Any, book: Any) -> None:
    hand = Hand(phone(NEW))
    hand.type("Another place", "Bluebird Bakry")
    hand.tap("Just hello")
    hand.tap("Save the visit")
    expect(hand.page.get_by_role("group", name="Is it one of these?")).to_be_focused()
    hand.tap("Bluebird Bakery")
    assert saved(hand.page).partner == book["bakery"]


def test_a_double_tap_on_a_slow_line_is_saved_once(phone: Any, book: Any) -> None:
    page = phone(NEW)

    def slowly(route: Route) -> None:
        time.sleep(0.7)
        route.continue_()

    page.route(f"**{NEW}*", slowly)
    page.get_by_role("radio", name="Just hello").tap()
    save = page.get_by_role("button", name="Save the visit")
    save.dblclick(no_wait_after=True)
    saved(page)
    assert Visit.objects.filter(partner=book["garden"]).count() == 1


def test_what_was_picked_meanwhile_outlives_a_late_answer_about_the_place(phone: Any, book: Any) -> None:
    hand = Hand(phone("/visits/new/?anywhere", service_workers="block"))
    late: list[Route] = []
    hand.page.route(f"**{NEW}?*", lambda route: late.append(route))
    hand.page.get_by_label("Another place").fill("Ink")
    hand.tap("Yes")
    hand.tap("terracotta pots")
    hand.page.evaluate("addEventListener('htmx:oobAfterSwap', () => (document.body.dataset.answered = ''))")
    late.pop().continue_()
    expect(hand.page.locator("body[data-answered]")).to_be_attached()
    expect(hand.page.get_by_role("radio", name="terracotta pots")).to_be_checked()


def test_going_back_and_saving_again_logs_nothing_at_the_next_place(phone: Any, book: Any) -> None:
    hand = Hand(phone(NEW))
    hand.tap("Just hello")
    hand.tap("Save the visit")
    saved(hand.page)
    hand.page.go_back()
    hand.tap("Save the visit")
    already = hand.page.get_by_text("That was saved already, once.")
    expect(already.or_(hand.page.get_by_text("Say what happened").first)).to_be_visible()
    assert Visit.objects.exclude(partner=book["framing"]).count() == 1


@pytest.mark.parametrize("path", [NEW, *(pytest.param(path, marks=pytest.mark.nightly) for path in OTHERS)])
@narrow_and_nightly_wide
def test_every_page_holds_at_any_width_and_for_every_reader(phone: Any, book: Any, path: str, width: int) -> None:
    outing = OutingStop.objects.first().outing_id
    page = phone(path.format(outing=outing, garden=book["garden"].pk), viewport={"width": width, "height": 740})
    if path == NEW:
        page.get_by_role("radio", name="Yes", exact=True).tap()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.locator("h1").count() == 1
    assert Axe().run(page).response["violations"] == []
