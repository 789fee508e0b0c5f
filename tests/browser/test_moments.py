"""The seven moments the screens are judged by: taps, keys, pages and seconds of each, on the demo book.

`pytest tests/browser/test_moments.py -m nightly -s` prints them all. Only taps and keys are bounded: seconds are the
machine's.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from typing import Any

import pytest
import time_machine
from playwright.sync_api import Page, expect

from partners.directory.models import Partner
from tests.browser.hand import Hand
from tests.whole_site.walk import keeper_of_the_demo

pytestmark = pytest.mark.django_db(transaction=True)
A_TUESDAY = "2026-10-06 14:00 -0400"
BAKERY = "Bluebird Bakery"
PHONE: dict[str, Any] = {"size": (360, 740), "has_touch": True, "is_mobile": True}
DESK: dict[str, Any] = {"size": (1280, 900)}


def visit_of_the_outing(hand: Hand) -> None:
    hand.tap("Log a visit")
    hand.tap("Just hello")
    hand.tap("Save the visit")
    hand.reads("Saved: Orchard Lane Market")


def visit_of_a_known_partner(hand: Hand) -> None:
    hand.tap("Log a visit")
    hand.tap("Lakeside Arts Guild")
    hand.tap("Maybe")
    hand.tap("Save the visit")
    hand.reads("Saved: Lakeside Arts Guild")


def visit_of_a_new_place(hand: Hand) -> None:
    hand.tap("Log a visit")
    hand.type("Another place", "Ink & Quire")
    hand.tap("Just hello")
    hand.tap("Save the visit")
    hand.reads("Saved: Ink & Quire")


def outing_of_four(hand: Hand) -> None:
    hand.tap("Outings")
    hand.tap("Plan an outing")
    for place in range(4):
        hand.touch(hand.page.locator(".suggested").get_by_role("checkbox").nth(place))
    hand.tap("Save the outing")
    hand.tap("All its sheets")
    hand.prints("Print all")


def leave_behind(hand: Hand) -> None:
    hand.tap("Leave-behind sheet")
    hand.prints("Print")


def gift_arrives(hand: Hand) -> None:
    hand.tap("Something arrived", exact=True)
    hand.tap("Bluebird Bakery")
    hand.tap("Save what came")
    hand.tap("Write the letter")
    hand.prints("Print")


def trade_agreed(hand: Hand) -> None:
    hand.tap("Agree on a trade")
    hand.type("What we make", "decorated bags")
    hand.type("How many, at least", "180")
    hand.date("We deliver by", "2026-11-10")
    hand.choose("School", "Millrace Elementary")
    hand.tap("They do")
    hand.type("What they give", "cake boxes")
    hand.tap("Save the trade")
    hand.tap("Memo to sign", exact=True)
    hand.prints("Print")


def review_of_a_month(hand: Hand) -> None:
    hand.tap("Monthly review")
    for line in hand.page.get_by_role("checkbox", name="Tick: Thank").all():
        hand.touch(line)
    hand.tap("Done", exact=True)
    expect(hand.page.locator("#tally")).to_contain_text("settled", timeout=30_000)


def family_letter(hand: Hand) -> None:
    hand.tap("Helpers", exact=True)
    hand.tap("Millrace Elementary")
    hand.reads("Letter home")
    hand.prints("Print")


def session_call(hand: Hand) -> None:
    hand.tap("Helpers", exact=True)
    hand.tap("Sessions", exact=True)
    hand.touch(hand.page.locator("tbody").get_by_role("link").first)
    hand.tap("Whom to ask")
    hand.reads("Whom to ask")


def thanks_and_summary(hand: Hand) -> None:
    hand.tap("Letters and sheets")
    hand.tap("Letters in one go")
    hand.tap("Put the notes together")
    hand.prints("Print all")
    hand.tap("Year", exact=True)
    hand.tap("Yearly summary")
    hand.prints("Print")


MOMENTS: dict[str, tuple[dict[str, Any], str, Callable[[Hand], None], int, int]] = {
    "a visit, next place of the outing": (PHONE, "/", visit_of_the_outing, 3, 0),
    "a visit, a known partner": (PHONE, "/", visit_of_a_known_partner, 4, 0),
    "a visit, a new place": (PHONE, "/", visit_of_a_new_place, 4, 11),
    "an outing of four with its sheets": (DESK, "/", outing_of_four, 9, 0),
    "a leave-behind sheet": (DESK, BAKERY, leave_behind, 2, 0),
    "a gift arrives, with its letter": (PHONE, "/", gift_arrives, 5, 0),
    "a trade is agreed, with its memo": (PHONE, BAKERY, trade_agreed, 11, 35),
    "the thanks of a month settled": (DESK, "/", review_of_a_month, 9, 0),
    "August: a letter home": (DESK, "/", family_letter, 3, 0),
    "April: calling helpers": (DESK, "/", session_call, 5, 0),
    "June: notes to givers, yearly summary": (DESK, "/", thanks_and_summary, 7, 0),
}


@pytest.fixture
def june_opens(window: Callable[..., Page]) -> Iterator[Callable[..., Hand]]:
    """The demo book on a Tuesday in October; opens an address as June sees it, on her phone or at her desk."""
    with time_machine.travel(A_TUESDAY):
        client = keeper_of_the_demo()
        yield lambda kind, path: Hand(window(client, path, **kind))


# What happens at a counter is looked at each time, with one of the desk.
EACH_TIME = ["a visit, next place of the outing", "a visit, a new place", "a gift arrives, with its letter",
             "the thanks of a month settled"]  # fmt: skip


@pytest.mark.parametrize(
    "names", [EACH_TIME, pytest.param(list(MOMENTS), marks=pytest.mark.nightly)], ids=["some", "all"]
)
def test_each_moment_takes_as_few_taps_and_keys_as_it_may(june_opens: Callable[..., Hand], names: list[str]) -> None:
    counted, bounds = {}, {}
    print(f"\n{'moment':40}{'taps':>6}{'keys':>6}{'pages':>7}{'seconds':>9}")
    for name in names:
        kind, path, moment, taps, keys = MOMENTS[name]
        hand = june_opens(kind, Partner.objects.get(name=BAKERY).get_absolute_url() if path == BAKERY else path)
        began = time.perf_counter()
        moment(hand)
        took = time.perf_counter() - began
        print(f"{name:40}{hand.taps:6}{hand.keys:6}{hand.loads:7}{took:9.1f}")
        counted[name], bounds[name] = (hand.taps, hand.keys), (taps, keys)
    over = {name: found for name, found in counted.items() if found[0] > bounds[name][0] or found[1] > bounds[name][1]}
    assert over == {}
