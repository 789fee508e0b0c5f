"""Fifty people at once, several workers, and a database that is restarted under them, on both engines."""

from __future__ import annotations

import http.client
import json
import os
import time
from collections.abc import Iterator
from urllib.parse import urlencode

import pytest

from tests.faults.editors import faults, on_many_rows, on_one_row
from tests.faults.harness import FOUND
from tests.faults.servers import Gunicorn, Served
from tests.faults.writers import TOKEN, Notes, Writer

pytestmark = pytest.mark.nightly
EDITORS = 50


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def served(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    made = Served(tmp_path_factory.mktemp("many"), request.param)
    yield made
    made.end()


def is_sound(served: Served, notes: Notes) -> bool:
    told = served.stem.judged(notes)
    return {name: told[name] for name in FOUND} == {name: [] for name in FOUND}


def test_fifty_editors_of_one_row_lose_no_update(served: Served) -> None:
    notes = Notes()
    moved, told_so, seconds = on_one_row(served.port, served.stem.made, notes, EDITORS)
    print(f"\n{EDITORS} editors of one row: {moved} saved, {told_so} times told that somebody was faster, "
          f"{dict(notes.statuses)}, {seconds:.0f} s, load {os.getloadavg()[0]:.0f}")  # fmt: skip
    assert moved
    assert set(notes.statuses) <= {200, 302, 409}
    assert is_sound(served, notes)


def test_fifty_editors_of_many_rows_are_all_answered(served: Served) -> None:
    notes = Notes()
    seconds = on_many_rows(served.port, served.stem.made, notes, EDITORS, 15)
    saved = len(notes.marks("saved"))
    print(f"\n{EDITORS} editors of many rows: {saved} saved, {notes.statuses.total() / seconds:.1f} answers a second, "
          f"{dict(notes.statuses)}, load {os.getloadavg()[0]:.0f}")  # fmt: skip
    assert saved
    assert faults(notes.statuses) == {}
    assert is_sound(served, notes)


def test_tries_to_sign_in_are_counted_over_all_workers(served: Served) -> None:
    statuses = []
    for _try in range(9):
        # A line of its own each time: any worker may take it.
        line = http.client.HTTPConnection("127.0.0.1", served.port, timeout=60)
        form = {"username": "vera", "password": "a wrong one", "csrfmiddlewaretoken": TOKEN}
        kind = {"Cookie": f"csrftoken={TOKEN}", "Content-Type": "application/x-www-form-urlencoded"}
        line.request("POST", "/sign-in/", urlencode(form), kind)
        statuses.append(line.getresponse().status)
        line.close()
    assert statuses[-1] == 429


def test_a_database_restarted_under_load_loses_nothing(served: Served) -> None:
    if served.cluster is None:
        pytest.skip("only a server can be restarted")
    notes, restarts = Notes(), 5
    writers = [Writer(number, served.port, served.stem.made, notes, seed=9) for number in range(6)]
    for writer in writers:
        writer.patient = True
        writer.start()
    for _restart in range(restarts):
        time.sleep(2)
        served.cluster.restart()
    time.sleep(3)
    for writer in writers:
        writer.stop.set()
    for writer in writers:
        writer.join(120)
    last = Writer(0, served.port, served.stem.made, notes, seed=0)
    for sent in [sent for sent in notes.sent.values() if not sent.told]:
        last.number = int(sent.mark.split("-")[1])
        last.send(sent)
    last.close()
    print(f"\n{restarts} restarts under load: {len(notes.marks('saved'))} answered saved, {dict(notes.statuses)}")
    assert set(faults(notes.statuses)) <= {503}
    assert is_sound(served, notes)


def test_what_gunicorn_says_itself_is_json_too(served: Served) -> None:
    server = Gunicorn(served.stem, PARTNER_BOOK_LOG="json")
    assert server.end() == 0
    lines = [json.loads(line) for line in server.log.read_text().splitlines()]
    assert {"gunicorn.error", "partners.request"} <= {line["logger"] for line in lines}
    assert {line["page"] for line in lines if line["logger"] == "partners.request"} == {"health"}
