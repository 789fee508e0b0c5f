"""Helpers in a real browser: a stack of slips by keyboard alone, a session from empty to confirmed, the check-in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.test import Client
from django.utils import timezone
from playwright.sync_api import Browser, Locator, Page, expect

from partners.helpers.actions import clear, open_batch
from partners.helpers.models import Helper
from partners.helpers.session_actions import ask_helpers, reply
from partners.helpers.session_models import Session
from partners.program.models import Membership
from tests.browser.variants import narrow_and_nightly_wide, with_script_and_nightly_without
from tests.helpers.cast import helper, plan
from tests.people import make_desk, make_school

pytestmark = pytest.mark.django_db(transaction=True)
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
DESK = {"viewport": {"width": 1280, "height": 900}}
# In the order of the fields: name, class, phone, best way, where, days, jobs, e-mail, language, times, how often,
# skills, rules. Ten slips as families fill them in: some say all, many only a name and a number.
SLIPS = [
    ("Rosa Delgado", "3-A", "2015550140", "t", "sd", "th", "mh", "", "Spanish", "after 1", "w", "", "y"),
    ("Ilse Brandt", "1-B", "2015550141", "e", "s", "a", "csl", "ilse@example.org", "", "", "m", "", "y"),
    ("Noor Haddad", "K-A", "2015550142", "c", "sh", "wf", "wc", "", "", "mornings", "", "sews", "y"),
    ("Tomas Ferreira", "5-B", "2015550143", "c", "sd", "hf", "htf", "", "", "", "", "carpenter", "y"),
    ("Ada Lindqvist", "2-C", "", "e", "h", "", "w", "ada@example.org", "", "", "o", "", ""),
    ("Priya Raman", "4-A", "2015550144", "t", "s", "", "hp", "", "", "1 to 3", "", "", "y"),
    ("Walter Okoye", "5-A", "2015550145", "c", "d", "", "h", "", "", "", "", "", ""),
    ("Mei Tanaka", "2-B", "2015550146", "", "s", "m", "", "", "", "", "", "", ""),
    ("? M.. Castle", "2-A", "", "", "s", "m", "", "", "", "", "", "", ""),
    ("Grete Olin", "", "2015550147", "n", "", "", "", "", "", "", "", "", ""),
]
# Common practice: forty words a minute with five strokes a word is what a teacher types at ease.
STROKES_A_MINUTE = 200
READING_SECONDS = 8
GOAL_SECONDS = 30


@pytest.fixture
def opened(browser: Browser, live_server: Any, june: Membership) -> Iterator[Any]:
    """Opens an address of the site as June sees it, at her desk or on her phone."""
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    cookie = {"name": "sessionid", "value": client.cookies["sessionid"].value, "url": live_server.url}
    contexts = []

    def open_page(path: str, **kind: Any) -> Page:
        context = browser.new_context(**kind)
        context.add_cookies([cookie])
        contexts.append(context)
        page = context.new_page()
        page.goto(live_server.url + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


@pytest.fixture
def desk(june: Membership) -> Any:
    make_school(june.program)
    return make_desk(june.program, day=timezone.localdate(), user=june.user)


def type_slip(page: Page, slip: tuple[str, ...]) -> int:
    """Keys only: text, Tab to the next field that the slip fills, Enter. Returns how many keys were pressed."""
    filled = max(place for place, text in enumerate(slip) if text)
    strokes = 0
    for place, text in enumerate(slip[: filled + 1]):
        if place:
            page.keyboard.press("Tab")
            strokes += 1
        page.keyboard.type(text)
        strokes += len(text)
    page.keyboard.press("Enter")
    return strokes + 1


def button(page: Page, words: str, name: str) -> Locator:
    """The button of one helper; the name stands in it for who cannot see the line."""
    return page.get_by_role("button", name=re.compile(rf"^{words}\s*: {name}$"))


@with_script_and_nightly_without
def test_a_stack_is_typed_by_keyboard_alone_at_thirty_seconds_a_slip(opened: Any, desk: Any, script: bool) -> None:
    batch = open_batch(desk=desk, school=desk.schools.get())
    page = opened(f"/helpers/slips/{batch.pk}/", **DESK, java_script_enabled=script)
    strokes = []
    for number, slip in enumerate(SLIPS, 1):
        expect(page.get_by_role("heading", name=f"Slip {number}", exact=True)).to_be_visible()
        # The browser itself puts the cursor there, with script and without.
        expect(page.locator("#id_name")).to_be_focused()
        strokes.append(type_slip(page, slip))
    expect(page.get_by_role("heading", name="Slip 11")).to_be_visible()
    assert Helper.objects.filter(batch=batch).count() == len(SLIPS)
    assert Helper.objects.get(unreadable=True).name == "M.. Castle"
    assert Helper.objects.get(name="Rosa Delgado").jobs == ["mounting", "hanging"]
    mean = sum(strokes) / len(strokes)
    seconds = READING_SECONDS + mean * 60 / STROKES_A_MINUTE
    print(
        f"{mean:.1f} keys a slip (at most {max(strokes)}): {seconds:.0f} s a slip, {80 * seconds / 60:.0f} min for 80"
    )
    assert seconds <= GOAL_SECONDS


def test_somebody_known_is_added_to_by_keyboard(opened: Any, desk: Any) -> None:
    helper(desk, phone="+12015550140")
    batch = open_batch(desk=desk)
    page = opened(f"/helpers/slips/{batch.pk}/", **DESK)
    expect(page.locator("#id_name")).to_be_focused()
    type_slip(page, ("Rosa Delgado", "3-A", "2015550140", "", "s"))
    expect(page.get_by_role("group", name="Is it one of these?")).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Added to Rosa Delgado.")).to_be_visible()
    assert Helper.objects.get().room == "3-A"


def test_a_session_goes_from_empty_to_confirmed(opened: Any, desk: Any) -> None:
    day = desk.day + timedelta(days=21)
    rosa = helper(desk, jobs=["hanging"], at_school=True)
    clear(desk=desk, helper=rosa, cleared=True, by="the office")
    helper(desk, "Walter Okoye", show_day=True)
    page = opened("/helpers/sessions/", **DESK)
    page.get_by_role("link", name="New session").first.click()
    page.get_by_label("Day", exact=True).fill(day.isoformat())
    page.get_by_label("From", exact=True).fill("13:00")
    page.get_by_label("Until", exact=True).fill("15:00")
    page.get_by_label("Place").fill("the front hall")
    page.get_by_label("Job", exact=True).select_option("hanging")
    page.get_by_role("button", name="Save the session").click()
    expect(page.get_by_role("checkbox", name="Rosa Delgado")).to_be_checked()
    page.get_by_role("button", name="Ask the ticked ones").click()
    for name in ("Rosa Delgado", "Walter Okoye"):
        button(page, "Yes", name).click()
    expect(page.get_by_text("2 of 2 said yes.")).to_be_visible()
    page.get_by_role("button", name="All know, a week before").click()
    page.get_by_role("button", name="All know, a day before").click()
    expect(page.get_by_text("Confirmed: hanging a show")).to_be_visible()
    session = Session.objects.get()
    assert (session.week_done_on, session.day_done_on, session.short_due) == (desk.day, desk.day, None)


def test_on_the_phone_each_helper_is_one_tap_and_thanks_are_one_more(opened: Any, desk: Any) -> None:
    session = plan(desk, desk.day, needed=3)
    for name in ("Rosa Delgado", "Ilse Brandt", "Noor Haddad"):
        (turn,) = ask_helpers(desk=desk, session=session, helpers=[helper(desk, name)])
        reply(desk=desk, turn=turn, answer="yes", day=desk.day)
    page = opened(f"/helpers/sessions/{session.pk}/check-in/", **PHONE)
    for name in ("Rosa Delgado", "Ilse Brandt"):
        here = button(page, "Here", name)
        box = here.bounding_box()
        assert box is not None
        assert box["height"] >= 44
        here.tap()
    button(page, "Not here", "Noor Haddad").tap()
    page.locator("summary", has_text="Ilse Brandt").tap()
    page.get_by_label("Minutes").locator("visible=true").fill("90")
    button(page, "Put right", "Ilse Brandt").tap()
    page.get_by_role("button", name="That is all").tap()
    page.get_by_role("button", name="Thanked all 2 who came").tap()
    expect(page.get_by_text("2 helpers thanked.")).to_be_visible()
    told = session.turns.order_by("helper__name").values_list("helper__name", "minutes")
    assert list(told) == [("Ilse Brandt", 90), ("Noor Haddad", None), ("Rosa Delgado", 120)]


@pytest.mark.nightly
@narrow_and_nightly_wide
def test_every_page_holds_at_any_width_and_for_every_reader(opened: Any, desk: Any, width: int) -> None:
    rosa, session, batch = helper(desk, phone="+12015550140"), plan(desk, desk.day), open_batch(desk=desk)
    ask_helpers(desk=desk, session=session, helpers=[rosa])
    own = f"/helpers/sessions/{session.pk}/"
    paths = ["", f"{rosa.pk}/", "to-call/", "slips/", f"slips/{batch.pk}/", "sessions/new/", "hours/", "kits/"]
    page = opened("/helpers/", viewport={"width": width, "height": 740})
    for path in [*(f"/helpers/{path}" for path in paths), own, f"{own}ask/", f"{own}check-in/"]:
        page.goto(page.url.split("/helpers/")[0] + path)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        assert page.locator("h1").count() == 1
        assert Axe().run(page).response["violations"] == [], path


def test_a_long_name_and_a_name_from_right_to_left_stay_readable_on_a_phone(opened: Any, desk: Any) -> None:
    """Before, a long word widened the page, and an Arabic name turned the digits of the phone behind it."""
    long = helper(
        desk, "Wolfeschlegelsteinhausenbergerdorff" * 2, phone="+12015550140", email=f"{'a' * 50}@example.org"
    )
    helper(desk, "عائشة الحسن", phone="+12015550141")
    for path in (f"/helpers/{long.pk}/", "/helpers/to-call/"):
        page = opened(path, **PHONE)
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert page.get_by_text("(201) 555-0141").evaluate("link => getComputedStyle(link).unicodeBidi") == "isolate"
