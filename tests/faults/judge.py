"""What a book holds after its server was killed: every promise of "saved", and nothing half."""

from __future__ import annotations

import sqlite3
from collections import Counter
from pathlib import Path
from typing import Any

from django.db import connection

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.program.models import Program
from tests.faults.book import NOT_KEPT, standing


def verdict(seed: dict[str, dict[str, Any]], saved: list[str]) -> dict[str, Any]:
    """What is wrong, in lists that ought to be empty, and how many events there are.

    `seed` is how the book stood before any event, `saved` the marks of everything that was answered "saved".
    """
    events = list(Event.objects.order_by("pk").values("pk", "once", "undoes_id", "changes"))
    kept = {event["once"] for event in events if event["once"]}
    return {
        "events": len(events),
        "kept": sorted(kept),
        "lost": sorted(set(saved) - kept),
        "doubled": doubled(events),
        "half": half(seed, events),
        "unsound": unsound(),
        "differing": differences(Program.objects.get()),
    }


def doubled(events: list[dict[str, Any]]) -> list[str]:
    """Marks that two events wrote into rows: each mark stands in the note, or the description, of what it saved."""
    marks: Counter[str] = Counter()
    for event in events:
        if event["undoes_id"] is None:
            texts = (item["after"] for item in event["changes"] if item["before"] is None)
            marks.update({text for row in texts for text in (row.get("note"), row.get("description")) if text})
    return sorted(mark for mark, times in marks.items() if times > 1 and mark.startswith("mark-"))


def half(seed: dict[str, dict[str, Any]], events: list[dict[str, Any]]) -> list[str]:
    """Where the rows are not what the events, replayed one after the other, make of the seed.

    A row without its event, an event without one of its rows, and a change that began from something else all show.
    """
    book = {name: dict(row) for name, row in seed.items()}
    wrong = []
    for event in events:
        for item in event["changes"]:
            place = f"{item['model']} {item['pk']}"
            before = {k: v for k, v in (item["before"] or {}).items() if k not in NOT_KEPT}
            after = {k: v for k, v in (item["after"] or {}).items() if k not in NOT_KEPT}
            there = book.get(place)
            if (there is None) != (item["before"] is None) or any(there[k] != v for k, v in before.items() if there):
                wrong.append(f"event {event['pk']} begins from another {place}")
            if item["after"] is None:
                book.pop(place, None)
            else:
                book[place] = {**(there or {}), **after}
    now = standing()
    wrong += [f"{place} differs" for place in sorted(book.keys() & now.keys()) if book[place] != now[place]]
    return wrong + [f"{place} stands alone" for place in sorted(book.keys() ^ now.keys())]


def unsound() -> list[str]:
    """What the database itself finds wrong with its file."""
    if connection.vendor != "sqlite":
        return []
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA integrity_check")
        told = [line for (line,) in cursor.fetchall() if line != "ok"]
        cursor.execute("PRAGMA foreign_key_check")
        return told + [f"a row of {row[0]} refers to nothing" for row in cursor.fetchall()]


def opens(path: Path) -> bool:
    """Whether SQLite finds a whole book in the file."""
    with sqlite3.connect(path) as book:
        return bool(book.execute("PRAGMA integrity_check").fetchall() == [("ok",)])
