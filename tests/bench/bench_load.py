"""Load held by two workers of four threads, and how long a page takes then beside a trivial one, on both engines.

Run `python -m tests.bench.bench_load`. Eight people ask without a pause, each for every page in turn, over real HTTP.
The trivial page is /health/: one question to the database and two words. What else the machine does falls on all pages
alike; so the ratios say more than the milliseconds.

p50, p95   milliseconds from sending to the last byte, the middle and the slowest twentieth
ratio      to the trivial page
"""

from __future__ import annotations

import os
import sys
import tempfile
import threading
import time
from pathlib import Path
from statistics import quantiles
from typing import Any
from urllib.parse import urlencode

from tests.faults.servers import Served
from tests.faults.writers import TOKEN, Notes, Writer

PEOPLE = 8
SECONDS = 30.0
PAGES = {
    "trivial": "/health/", "Today": "/", "partners": "/partners/", "a partner": "/partners/1/", "review": "/review/",
    "log a visit": "/visits/new/",
}  # fmt: skip


class Asker(Writer):
    """Asks for every page in turn, and saves a visit; notes how long each took."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.times: dict[str, list[float]] = {name: [] for name in (*PAGES, "save a visit")}

    def turn(self) -> None:
        for name, path in PAGES.items():
            self.timed(name, "GET", path)
        self.serial += 1
        mark = f"mark-{self.number}-{self.serial}"
        path, data = self.visit(mark)
        self.timed("save a visit", "POST", path, urlencode({**data, "once": mark, "csrfmiddlewaretoken": TOKEN}))

    def timed(self, name: str, method: str, path: str, body: str | None = None) -> None:
        began = time.perf_counter()
        status, _place, _page = self.ask(method, path, body)
        assert status in (200, 302), (path, status)
        self.times[name].append((time.perf_counter() - began) * 1000)


def measure(served: Served, seconds: float) -> tuple[dict[str, list[float]], float]:
    askers = [Asker(number, served.port, served.stem.made, Notes(), seed=1) for number in range(PEOPLE)]
    for asker in askers:
        # The first pages of a worker load what later ones have.
        asker.turn()
        asker.times = {name: [] for name in asker.times}
    ended = threading.Event()
    began = time.monotonic()
    for asker in askers:
        asker.start()
    ended.wait(seconds)
    for asker in askers:
        asker.stop.set()
    for asker in askers:
        asker.join(120)
    took = time.monotonic() - began
    times = {name: [one for asker in askers for one in asker.times[name]] for name in askers[0].times}
    return times, sum(len(one) for one in times.values()) / took


def table(engines: tuple[str, ...] = ("sqlite", "postgresql"), seconds: float = SECONDS) -> bool:
    """Prints the figures; whether every page was answered."""
    for engine in engines:
        with tempfile.TemporaryDirectory(prefix="partner-book-load-") as folder:
            served = Served(Path(folder) / "load", engine)
            try:
                times, held = measure(served, seconds)
            finally:
                served.end()
        print(f"{engine}: {held:.1f} requests a second held, load of the machine {os.getloadavg()[0]:.1f}")
        trivial = quantiles(times["trivial"], n=20)
        for name, one in times.items():
            cuts = quantiles(one, n=20)
            ratios = f"{cuts[9] / trivial[9]:>8.1f}{cuts[18] / trivial[18]:>8.1f}"
            print(f"  {name:<14}{cuts[9]:>9.0f}{cuts[18]:>9.0f}{ratios}")
    return all(len(one) > 1 for one in times.values())


if __name__ == "__main__":
    sys.exit(not table())
