"""A server that is killed under its writers loses nothing that was answered "saved", and leaves nothing half."""

from __future__ import annotations

import os
import signal
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.faults.harness import FOUND, Server, Stem, copy_book, many_lives
from tests.faults.kills import line, run
from tests.faults.writers import TOKEN, Notes, Sent, Writer


def test_what_was_answered_saved_survives_kills_and_is_saved_once(stem: Stem) -> None:
    life = many_lives(stem, 2, seed=5)
    assert life.clean, life.found
    assert (life.kills, life.saved > 0) == (2, True)


@pytest.mark.nightly
def test_a_thousand_kills() -> None:
    """Prints the figures of DEVELOPERS.md: `python3 manage.py test tests/faults -m nightly -s -k thousand`."""
    print()
    life = run(int(os.environ.get("KILLS", "1000")))
    print(line(life))
    assert life.clean, life.found


@pytest.fixture(scope="module")
def written(grown: Stem, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Notes]:
    """A book with one visit in it, kept aside."""
    grown.begin_anew()
    notes, kept = Notes(), tmp_path_factory.mktemp("written")
    server = Server(grown)
    server.wait()
    writer = Writer(0, server.port, grown.made, notes, seed=1)
    path, data = writer.visit("mark-0")
    notes.sent["mark-0"] = Sent("mark-0", path, {**data, "once": "mark-0", "csrfmiddlewaretoken": TOKEN})
    writer.send(notes.sent["mark-0"])
    writer.close()
    server.end(signal.SIGTERM)
    copy_book(grown.data, kept)
    assert stem_is_clean(grown, notes)
    return kept, notes


def stem_is_clean(stem: Stem, notes: Notes) -> bool:
    told = stem.judged_copy(notes)
    return not any(told[name] for name in FOUND)


# What the judge says of a book in which somebody meddled: each kind of damage is seen as what it is.
@pytest.mark.parametrize(("damage", "found"), [
    ("DELETE FROM partners_visit", "half"),
    ("UPDATE partners_partner SET name = 'Another' WHERE id = 1", "half"),
    ("DELETE FROM partners_event WHERE once IS NOT NULL", "lost"),
    ("UPDATE partners_partner SET last_heard_on = '2020-01-01'", "differing"),
    ("INSERT INTO partners_event SELECT 900, program_id, at, by_id, words, facts, about_model, about_pk, changes, "
     "'another', undoes_id FROM partners_event WHERE once IS NOT NULL LIMIT 1", "doubled"),
])  # fmt: skip
def test_the_judge_sees_damage(stem: Stem, written: tuple[Path, Notes], damage: str, found: str) -> None:
    kept, notes = written
    copy_book(kept, stem.data)
    with closing(sqlite3.connect(stem.data / "book.sqlite3")) as book:
        book.execute("PRAGMA foreign_keys = OFF")
        book.execute(damage)
        book.commit()
    assert stem.judged_copy(notes)[found]
