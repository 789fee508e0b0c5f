"""Pages of helpers in a book of 2,000 helpers and 10,000 turns, and in one five times as large: they stay as they are.

Run `.venv/bin/python -m tests.bench.bench_helpers`. Each is a SQLite book made for the run by
partners/config/large_helpers.py; every request goes through the whole site, the two books in turns in one process.

ms        processor time of a request in the smaller book, the middle of many
growth    the larger book to the smaller one: the middle of the ratios of each round
queries   of one request, in the smaller and the larger book
steps     instructions that SQLite carried out, in the larger book

Whom to ask is worked out over everybody who could come, and hours are added up over whole years: those pages grow with
the book, and are held to a time instead.
"""

from __future__ import annotations

import json
import sys
import tempfile
from collections.abc import Callable
from statistics import median
from typing import Any

from tests.bench.measure import apart, in_turns, ratio

MODULE = "tests.bench.bench_helpers"
SIZES = (2_000, 10_000)
ROUNDS = 25
MOST_GROWTH = 1.5
# Pages that look at every helper or every turn of a year: bounded by time instead.
LOOK_AT_ALL = {"whom to ask", "fill several", "hours", "by name"}
MOST_MS = 300.0


def measure() -> dict[str, dict[str, float]]:
    import django

    django.setup()
    from django.core.management import call_command
    from django.utils import timezone

    from partners.config.large_book import load_large
    from partners.program.models import User

    call_command("migrate", verbosity=0)
    books = []
    for helpers in SIZES:
        name, _password = load_large(1_000, timezone.localdate(), helpers=helpers)
        books.append(works(User.objects.get(username=name)))
    pages = {(name, place): work for place, book in enumerate(books) for name, work in book.items()}
    times = in_turns(pages, ROUNDS)
    return {
        name: {
            "ms": median(times[name, 0]),
            "growth": ratio(times, (name, 1), (name, 0)),
            "queries": counted(books[0][name])[0],
            "queries_large": counted(books[1][name])[0],
            "steps": counted(books[1][name])[1],
        }
        for name in books[0]
    }


def works(user: Any) -> dict[str, Callable[[], Any]]:
    """Each page of one book."""
    from django.conf import settings
    from django.test import Client
    from django.urls import reverse
    from django.utils import timezone

    from partners.program.desk import Desk
    from partners.program.models import Membership

    membership = Membership._base_manager.select_related("program").get(user=user)
    desk = Desk(program=membership.program, day=timezone.localdate(), user=user)
    client = Client(SERVER_NAME="localhost")
    client.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    coming = desk.sessions.filter(day__gt=desk.day).order_by("pk")[1].pk
    begun = desk.sessions.filter(day__lte=desk.day).order_by("-day", "pk")[0].pk
    helper = desk.helpers.order_by("pk")[21].pk

    def get(name: str, *args: Any, query: str = "") -> Callable[[], Any]:
        address = reverse(name, args=args) + query

        def page() -> None:
            answer = client.get(address)
            assert answer.status_code == 200, address

        return page

    return {
        "Today": get("agenda:today"),
        "review": get("agenda:review"),
        "list": get("helpers:helper-list"),
        "one helper": get("helpers:helper-detail", helper),
        "by name": get("helpers:helper-list", query="?q=kestrel"),
        "not yet called": get("helpers:helper-to-call"),
        "sessions": get("helpers:session-list"),
        "a session": get("helpers:session-detail", coming),
        "check-in": get("helpers:session-check-in", begun),
        "whom to ask": get("helpers:session-ask", coming),
        "fill several": get("helpers:session-fill"),
        "kits": get("helpers:kit-list"),
        "hours": get("helpers:hour-list"),
    }


def counted(work: Callable[[], Any]) -> tuple[int, int]:
    """Queries and SQLite's steps of one request."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    with CaptureQueriesContext(connection) as caught:
        work()
    queries = len(caught.captured_queries)
    steps = 0

    def step() -> None:
        nonlocal steps
        steps += 10

    connection.connection.set_progress_handler(step, 10)
    work()
    connection.connection.set_progress_handler(None, 0)
    return queries, steps


def table() -> bool:
    """Prints the figures; whether the pages stay flat."""
    with tempfile.TemporaryDirectory(prefix="partner-book-bench-") as folder:
        told = apart(MODULE, "measure", PARTNER_BOOK_DATA=folder, DJANGO_SETTINGS_MODULE="partners.config.settings")
    print(f"{'page':<16}{'ms':>8}{'growth':>9}{'queries':>10}{'steps':>10}")
    for name, row in told.items():
        queries = f"{row['queries']:.0f}/{row['queries_large']:.0f}"
        print(f"{name:<16}{row['ms']:>8.1f}{row['growth']:>9.2f}{queries:>10}{row['steps']:>10,.0f}")
    flat = [name for name, row in told.items() if name not in LOOK_AT_ALL and row["growth"] > MOST_GROWTH]
    slow = [name for name, row in told.items() if row["ms"] > MOST_MS]
    print(f"not flat: {', '.join(flat) or 'none'}; above {MOST_MS:.0f} ms: {', '.join(slow) or 'none'}")
    return not flat and not slow and all(row["queries"] == row["queries_large"] for row in told.values())


if __name__ == "__main__":
    print(json.dumps(measure()) if sys.argv[1:] == ["measure"] else table())
