"""Kills a server again and again: `python -m tests.faults.kills 1000`. Prints one line of figures for each book.

Each life of a server has four writers on lines of their own: visits, arrivals, undos and settled promises, one in ten
forms sent twice at once. It is killed (SIGKILL) at a random moment: up to 0.3 seconds after none to six answers, or,
one in twenty, while it starts. Then a copy of its files is judged, and the next server begins with the files as they
are. Servers are forks of a warmed process (tests/faults/stem.py says what that spares); one in twenty starts cold.

answered   "saved", as a person reads it on the page that follows
in flight  sent and not answered when the server was killed; `kept` of them were in the book all the same
again      forms that were sent a second time, with their token
lost       answered "saved" and not in the book, or not known when sent again
doubled    saved twice
half       a row without its event, an event without one of its rows, or a change that began from something else
unsound    what SQLite's integrity_check and foreign_key_check find
differing  what check_book finds
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from pathlib import Path

from tests.faults.harness import FOUND, Life, Stem, many_lives


def line(life: Life) -> str:
    counted = {name: len(life.found[name]) for name in FOUND}
    figures = {
        "kills": life.kills, "cold": life.cold, "early": life.early, "answered": life.saved,
        "in flight": life.in_flight, "kept": life.in_flight_kept, "again": life.again, "events": life.events, **counted,
        "5xx": sum(times for code, times in life.statuses.items() if code >= 500),
    }  # fmt: skip
    load = f"{life.seconds / life.kills:.2f} s a kill, load {os.getloadavg()[0]:.1f}"
    return ", ".join(f"{name} {value}" for name, value in figures.items()) + "; " + load


def run(kills: int, seed: int = 1) -> Life:
    with tempfile.TemporaryDirectory(prefix="partner-book-kills-") as folder:
        stem = Stem(Path(folder))
        try:
            return many_lives(stem, kills, seed=seed, told=lambda life: print(line(life), flush=True))
        finally:
            stem.end()


if __name__ == "__main__":
    life = run(int(sys.argv[1]), *map(int, sys.argv[2:3]))
    print(json.dumps(life.found) if not life.clean else "Nothing was lost, doubled or half.")
    print(dict(life.statuses))
    sys.exit(not life.clean)
