"""Many people at once who move the day of one promise, each from the page as they saw it."""

from __future__ import annotations

import re
import threading
import time
from collections import Counter
from datetime import date, timedelta
from typing import Any
from urllib.parse import urlencode

from tests.faults.writers import TOKEN, Notes, Sent, Writer

SEEN = re.compile(r'name="seen" value="(\d+)"')


class Mover(Writer):
    """Reads the page of the promise, moves its day, and begins again, twice, where somebody else was faster."""

    TRIES = 3

    def __init__(self, number: int, port: int, made: dict[str, Any], notes: Notes, path: str, begin: Any) -> None:
        super().__init__(number, port, made, notes, seed=number)
        self.path, self.begin, self.moved, self.told_so = path, begin, False, 0

    def run(self) -> None:
        self.begin.wait(60)
        day = date.fromisoformat(self.made["day"]) + timedelta(days=30 + self.number)
        while not self.moved and self.told_so < self.TRIES:
            page = self.ask("GET", self.path)[2]
            [seen, *_] = SEEN.findall(page)
            mark = f"move-{self.number}-{self.told_so}"
            sent = Sent(mark, f"{self.path}move/", {"due": day.isoformat(), "seen": seen, "once": mark})
            sent.data["csrfmiddlewaretoken"] = TOKEN
            self.notes.sent[mark] = sent
            status, _place, _page = self.ask("POST", sent.path, urlencode(sent.data))
            self.moved = status == 302
            sent.told = "saved" if self.moved else "refused"
            self.told_so += not self.moved
        self.close()


def on_one_row(port: int, made: dict[str, Any], notes: Notes, editors: int) -> tuple[int, int, float]:
    """How many moved the promise, how often one was told that somebody was faster, and the seconds of it all."""
    first = Writer(0, port, made, notes, seed=0)
    mark = "mark-promise"
    data = {"partner_pk": made["places"][0], "happened": "yes", "what": "yarn", "note": mark, "once": mark}
    first.send(Sent(mark, "/visits/new/", {**data, "csrfmiddlewaretoken": TOKEN}))
    while not notes.promises:
        page = first.ask("GET", f"/partners/{made['places'][0]}/")[2]
        notes.promises += re.findall(r"/promises/(\d+)/", page)[:1]
    first.close()
    path, begin = f"/promises/{notes.promises[0]}/", threading.Barrier(editors)
    movers = [Mover(number, port, made, notes, path, begin) for number in range(editors)]
    began = time.monotonic()
    for mover in movers:
        mover.start()
    for mover in movers:
        mover.join(300)
    return sum(mover.moved for mover in movers), sum(mover.told_so for mover in movers), time.monotonic() - began


def on_many_rows(port: int, made: dict[str, Any], notes: Notes, editors: int, seconds: float) -> float:
    """So many writers at work for so long; gives how long it took until the last had its answer."""
    writers = [Writer(number, port, made, notes, seed=7) for number in range(editors)]
    began = time.monotonic()
    for writer in writers:
        writer.patient = True
        writer.start()
    time.sleep(seconds)
    for writer in writers:
        writer.stop.set()
    for writer in writers:
        writer.join(120)
    return time.monotonic() - began


def faults(statuses: Counter[int]) -> dict[int, int]:
    return {status: times for status, times in statuses.items() if status >= 500}
