"""Whatever is asked of the site, signed in or not: an answer that is no failure, and nothing echoed as markup."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.db import transaction
from django.test import Client

from partners.program.models import Membership
from tests.attack.inputs import Hand, assert_no_echo, hands, often, try_many
from tests.rows import make_book
from tests.whole_site.addresses import ADDRESSES, OPEN_TO_ALL, methods, paths
from tests.whole_site.attempts import ATTEMPTS, NO_CHANGE, OWN

pytestmark = pytest.mark.django_db
# What pages ask their address for.
ASKED = (
    "q", "name", "what", "search", "partner", "partner_pk", "promise", "follows", "stop", "need", "school", "gift",
    "visit", "contact", "ask", "outing", "project", "place", "page", "year", "state", "side", "kind", "when", "job",
    "hours", "language", "ready", "left", "after", "field", "what_for", "former", "shown", "day", "line", "to",
    "sort", "on", "batch", "from", "number", "figure", "month", "paper", "one", "copies", "business_kind", "standing",
    "form", "source", "next", "do", "act",
)  # fmt: skip
# No server takes these in a header.
ENDS = {ord(sign): None for sign in "\r\n\x00"}
FITTING = ("1", str(OWN), "2026", "2026-10-06", "name", "-name", "12.50", "es", "a4", "done", "on")


@pytest.fixture(autouse=True)
def a_day() -> Iterator[None]:
    with time_machine.travel("2027-01-12 15:00 -0500", tick=False):
        yield


@pytest.fixture
def book(june: Membership) -> None:
    plain = {"phone": "", "email": ""}
    make_book(june.program, OWN, "Ours ", Partner={**plain, "web": ""}, Contact={**plain, "left_on": None})


def as_sent(text: str) -> str:
    """As a server hands on what stands in a request: its bytes, each as one sign."""
    return text.encode().decode("latin-1")


def assert_harmless(answer: Any) -> Any:
    """Fails for an answer that shows what was typed as markup, in its page or in a header."""
    headers = "".join(f"{name}: {value}" for name, value in answer.items())
    assert "\r" not in headers
    assert "\n" not in headers
    # Read to its end, a file that is sent in pieces is closed.
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if answer["Content-Type"].startswith("text/html"):
        assert_no_echo(body.decode())
    return answer


@often
def test_any_page_answers_whatever_its_address_says(signed_in: Client, book: None, times: int) -> None:
    pages = [name for name in sorted(set(ADDRESSES) - OPEN_TO_ALL) if "GET" in methods(name)]
    places = [path for name in pages for path in paths(name, OWN)[:1]]

    def attempt(hand: Hand) -> None:
        asked = {name: hand.typed(FITTING) for name in [hand.one_of(ASKED), *hand.some(ASKED, 4)]}
        assert_harmless(signed_in.get(hand.one_of(places), asked))

    try_many(80, times, attempt, hand=hands)


@often
def test_any_form_answers_whatever_is_sent_to_it(signed_in: Client, book: None, times: int) -> None:
    """What is taken is rolled back, so that every attempt finds the same book."""
    names = sorted(set(ATTEMPTS) - NO_CHANGE)

    def attempt(hand: Hand) -> None:
        name = hand.one_of(names)
        sent = dict(ATTEMPTS[name].typed)
        for field in [*hand.some(sorted(sent), 3), *hand.some(ASKED, 1), *hand.some(["next", "once", "seen"], 2)]:
            sent[field] = hand.typed(FITTING)
        with transaction.atomic():
            assert_harmless(signed_in.post(hand.one_of(paths(name, OWN)), sent))
            transaction.set_rollback(True)

    try_many(60, times, attempt, hand=hands)


@often
def test_any_stranger_is_answered_without_a_failure(client: Client, june: Membership, times: int) -> None:
    headers = (
        "HTTP_HOST", "HTTP_REFERER", "HTTP_COOKIE", "HTTP_X_FORWARDED_FOR",
        "HTTP_ACCEPT_LANGUAGE", "CONTENT_TYPE",
        "HTTP_X_REQUESTED_WITH", "HTTP_HX_REQUEST", "HTTP_HX_CURRENT_URL", "HTTP_IF_NONE_MATCH", "QUERY_STRING",
    )  # fmt: skip
    places = (
        "/",
        "/sign-in/",
        "/partners/",
        "/sheets/calendar/{}.ics",
        "/static/{}",
        "/{}",
        "/partners/{}/",
        "/sheets/{}/1/",
    )

    def attempt(hand: Hand) -> None:
        more = {name: as_sent(hand.typed()).translate(ENDS) for name in hand.some(headers, 3)}
        place = as_sent(hand.one_of(places).replace("{}", hand.typed()))
        answer = client.generic(
            hand.one_of(("GET", "GET", "HEAD", "POST", "PUT")), "/", hand.typed(), PATH_INFO=place, **more
        )
        assert answer.status_code < 500
        assert_harmless(answer)

    try_many(120, times, attempt, hand=hands)
