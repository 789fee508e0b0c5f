"""Backup, destroy, restore: everything is there again, and nothing half."""

from __future__ import annotations

import multiprocessing
import os
import random
import resource
import signal
import sqlite3
import time
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.core.management import call_command

from partners.copies.comparing import unequal
from partners.copies.form import Unreadable
from partners.copies.keeping import make_copy, sweep
from partners.copies.placing import place_file
from partners.copies.reading import beside, contents, what_differs
from partners.copies.restoring import keep_what_is_there, place, what_is_there
from partners.copies.standing_in import opened, standing_in
from partners.program.models import Program, User
from partners.wish_list.actions import enough
from tests import people
from tests.rows import make_book
from tests.whole_book import undo_newest

AT = datetime(2026, 10, 6, 12, tzinfo=UTC)
TRIES = [3, pytest.param(300, marks=pytest.mark.nightly)]


def filled(name="Alder Falls Art"):
    program = people.make_program(name)
    make_book(program, 100, "“Ño” ")
    people.make_member(program, "June")
    return program


def restored(copy, own, folder):
    """What `restore` does once it has asked; gives where the book of before is kept."""
    kept = keep_what_is_there(what_is_there(), AT)
    with beside(copy, folder / "made.sqlite3") as (made, _told), standing_in(own):
        place(made, own)
        assert list(unequal(made, own)) == []
    return kept


def test_what_was_destroyed_comes_back_cell_by_cell(own, folder):
    program = filled()
    gone = people.make_partner(program, "Gone")
    number = max(gone.pk, 100)
    gone.delete()
    enough(desk=people.make_desk(program), need=program.needs.get())
    copy, differing = make_copy(to=folder / "a.book", at=AT).path, what_differs()
    people.make_user("Later")
    program.sheets.update(pdf=b"gone")
    kept = restored(copy, own, folder)
    assert what_differs() == differing
    assert not User.objects.filter(username="later").exists()
    # A number that was given out is not given out again: an undo may yet need it.
    assert people.make_partner(Program.objects.get(), "New").pk == number + 1
    undo_newest(people.make_desk(Program.objects.get()))
    with beside(kept, folder / "kept.sqlite3"):
        assert User.objects.filter(username="later").exists()


def test_the_commands_copy_a_book_and_restore_it_where_its_file_is_ruined(own, folder, capsys):
    if own.vendor != "sqlite":
        pytest.skip("a file of SQLite")
    people.make_partner(people.make_member(people.make_program(), "June").program)
    call_command("backup", str(folder / "a.book"))
    own.close()
    Path(own.settings_dict["NAME"]).write_bytes(b"coffee" * 2000)
    call_command("restore", str(folder / "a.book"))
    said = capsys.readouterr().out
    assert "was opened again and everything in it fits together" in said
    aside = next((folder / "copies").glob("unreadable-*"))
    assert str(aside) in said
    assert aside.read_bytes().startswith(b"coffee")
    assert Program.objects.get().partners.count() == 1


@contextmanager
def no_room_beyond(size):
    """As on a full disk, a file that grows beyond this is refused half-way (POSIX setrlimit, RLIMIT_FSIZE)."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_full_disk_leaves_the_earlier_copy_and_no_half_one(folder, program):
    made = make_copy(to=folder / "a.book", at=AT)
    before = made.path.read_bytes()
    with no_room_beyond(4096), pytest.raises(OSError, match="too large"):
        make_copy(to=folder / "a.book", at=AT)
    assert made.path.read_bytes() == before
    assert [path.name for path in folder.iterdir()] == ["a.book"]


def sheets_of(path: Path, word: str, count: int = 400) -> None:
    with closing(sqlite3.connect(path)) as made, made:
        made.execute("PRAGMA journal_mode=WAL")
        made.execute("CREATE TABLE sheet (word TEXT, pdf BLOB)")
        made.executemany("INSERT INTO sheet VALUES (?, zeroblob(20000))", [(word,)] * count)


def words_in(path: Path) -> list[tuple[str, int]]:
    with closing(sqlite3.connect(path)) as book:
        assert book.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return book.execute("SELECT word, count(*) FROM sheet GROUP BY word").fetchall()


def test_a_book_that_does_not_fit_together_is_set_aside_and_a_sound_copy_restored(own, folder):
    if own.vendor != "sqlite":
        pytest.skip("PostgreSQL keeps its rows together itself")
    filled()
    copy = make_copy(to=folder / "a.book", at=AT).path
    with own.cursor() as cursor:
        cursor.execute("PRAGMA foreign_keys = OFF")
        cursor.execute("DELETE FROM partners_partner")
    with pytest.raises(Unreadable, match="could not be read back"):
        make_copy(to=folder / "b.book", at=AT)
    assert restored(copy, own, folder).name.startswith("unreadable-")


def test_a_full_disk_while_restoring_leaves_the_old_book_whole(tmp_path):
    old, new = tmp_path / "book.sqlite3", tmp_path / "new.sqlite3"
    sheets_of(old, "old", 20)
    sheets_of(new, "new")
    with no_room_beyond(2_000_000), pytest.raises(sqlite3.Error):
        place_file(new, old)
    assert words_in(old) == [("old", 20)]


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.parametrize("tries", TRIES)
def test_killed_while_restoring_the_book_is_the_old_one_or_the_new_one(tmp_path, tries):
    old, new = tmp_path / "book.sqlite3", tmp_path / "new.sqlite3"
    sheets_of(old, "old")
    sheets_of(new, "new")
    reader = sqlite3.connect(old)
    reader.execute("SELECT count(*) FROM sheet").fetchall()
    for _try in range(tries):
        killed_after(random.uniform(0, 0.15), place_file, new, old)
        assert words_in(old) in ([("old", 400)], [("new", 400)])
    place_file(new, old)
    # Whoever had the book open all the while reads the new one.
    assert reader.execute("SELECT DISTINCT word FROM sheet").fetchall() == [("new",)]
    reader.close()


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.parametrize("tries", [2, pytest.param(100, marks=pytest.mark.nightly)])
def test_killed_while_copying_the_earlier_copy_or_the_new_one_is_whole(own, folder, tries):
    if own.vendor != "sqlite":
        pytest.skip("a connection to a server cannot be carried into another process")
    filled()
    copy = make_copy(to=folder / "a.book", at=AT).path
    for _try in range(tries):
        killed_after(random.uniform(0.1, 2), copy_again, own.settings_dict, copy)
        sweep()
        assert contents(copy).rows > 50
    assert [path.name for path in folder.glob("*") if path.is_dir()] == []


def copy_again(settings, to):
    with standing_in(opened(settings)):
        make_copy(to=to, at=AT)


def killed_after(seconds, work, *args):
    """A process of its own, ended by the system without a chance to tidy up."""
    process = multiprocessing.get_context("fork").Process(target=work, args=args)
    process.start()
    time.sleep(seconds)
    os.kill(process.pid, signal.SIGKILL)
    process.join()
    process.close()
