"""A book to measure: its database, somebody signed in, and each kind of work in the ways that are compared."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import connections
from django.db.backends.sqlite3.base import DatabaseWrapper
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from partners.program.desk import Desk
from partners.program.models import Membership
from tests.bench import plain_pages

PAGES = {"review": "agenda:review", "today": "agenda:today"}
SHOWN = 50
TAKE_BACK = "DELETE FROM partners_followup WHERE id = (SELECT MAX(id) FROM partners_followup)"


class Book:
    """Several can be open at once; each way of working begins by turning to its own book."""

    def __init__(self, folder: Path) -> None:
        given = {**connections.settings["default"], "NAME": folder / "book.sqlite3"}
        self.connection = DatabaseWrapper(given, "default")
        self.turn_to()
        membership = Membership._base_manager.select_related("program", "user").get()
        self.desk = Desk(program=membership.program, day=timezone.localdate(), user=membership.user)
        # The name is one the site answers to, so that no template is watched as in a test.
        self.client = Client(SERVER_NAME="localhost")
        self.client.force_login(membership.user, backend=settings.AUTHENTICATION_BACKENDS[-1])
        self.raw = sqlite3.connect(folder / "book.sqlite3", isolation_level=None)
        self.raw.execute("PRAGMA synchronous = FULL")
        self.visited = self.partners()

    def turn_to(self) -> None:
        connections["default"] = self.connection

    def ways(self, work: str, compared: bool = True) -> dict[str, Callable[[], Any]]:
        """ "ours" and, where they are to be compared, the others."""
        if work == "save":
            return {"ours": self.save, **({"floor": self.bare_save()} if compared else {})}
        address = reverse(PAGES[work])
        ours = {"ours": lambda: self.get(address)}
        if not compared:
            return ours
        lines = [plain_pages.values(line) for line in self.lines(work)]
        others = {
            "plain": self.plain("/plain/", lines),
            "asked": self.plain(f"/asked/{work}/", []),
            "words": self.plain("/words-only/", lines),
        }
        return {**ours, **others, "floor": self.bare_page(work)}

    def get(self, address: str) -> bytes:
        self.turn_to()
        answer = self.client.get(address)
        assert answer.status_code == 200, address
        return bytes(answer.content)

    def plain(self, address: str, lines: list[dict[str, Any]]) -> Callable[[], Any]:
        def page() -> bytes:
            plain_pages.lines = lines
            return self.get(address)

        return page

    def lines(self, work: str) -> list[Any]:
        """The lines that the page shows."""
        return plain_pages.shown(self.desk, work)

    def bare_page(self, work: str) -> Callable[[], str]:
        """The statements of the page through sqlite3 alone; what is due, put in order and joined."""
        statements = [sql for sql in self.statements(lambda: self.get(reverse(PAGES[work]))) if "SELECT" in sql]

        def page() -> str:
            due: list[Any] = []
            for sql in statements:
                rows = self.raw.execute(sql).fetchall()
                if sql.endswith(("LIMIT 51", "LIMIT 100")):
                    due += rows
            due.sort(key=lambda row: (row[1], row[0]))
            return "".join(f"<tr><td>{row[1]}<td>{row[2:]}</tr>" for row in due[:SHOWN])

        return page

    def partners(self) -> Iterator[int]:
        """Partners nothing is asked of at present, over and over, so that every visit writes the same rows."""
        idle = self.desk.partners.exclude(asks__answer="waiting").order_by("pk").values_list("pk", flat=True)
        return cycle(list(idle[:200]))

    def save(self) -> None:
        self.turn_to()
        told = {
            "partner_pk": next(self.visited),
            "happened": "maybe",
            "what": "pots",
            "day": self.desk.day,
            "how": "phone",
        }
        answer = self.client.post(reverse("visits:visit-new"), told)
        assert answer.status_code == 302, answer.content[-3000:]

    def bare_save(self) -> Callable[[], None]:
        """The statements of one save in one transaction; its follow-up goes again, as an ask has one that is open."""
        kept = self.statements(self.save)
        statements = [sql for sql in kept if sql.split()[0] in ("SELECT", "INSERT", "UPDATE")]
        written = next(sql for sql in statements if sql.startswith('INSERT INTO "partners_followup"'))
        self.raw.execute(TAKE_BACK)

        def save() -> None:
            self.raw.execute("BEGIN IMMEDIATE")
            for sql in statements:
                self.raw.execute(sql).fetchall()
                if sql == written:
                    self.raw.execute(TAKE_BACK)
            self.raw.execute("COMMIT")

        return save

    def statements(self, work: Callable[[], Any]) -> list[str]:
        self.turn_to()
        with CaptureQueriesContext(self.connection) as caught:
            work()
        return [query["sql"] for query in caught.captured_queries]

    def counted(self, work: str) -> dict[str, float]:
        """Queries, SQLite's steps and kilobytes of one request."""
        ours = self.ways(work, compared=False)["ours"]
        queries = len(self.statements(ours))
        steps = 0

        def step() -> None:
            nonlocal steps
            steps += 10

        self.connection.connection.set_progress_handler(step, 10)
        sent = ours()
        self.connection.connection.set_progress_handler(None, 0)
        return {"queries": queries, "steps": steps, "kb": len(sent or b"") / 1024}
