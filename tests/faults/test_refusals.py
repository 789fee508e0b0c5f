"""A disk without room, a folder that may not be written, a lock somebody holds: a sentence, nothing lost."""

from __future__ import annotations

import errno
import html
import os
import re
import signal
import sqlite3
import subprocess
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any, ClassVar
from urllib.parse import urlencode

import pytest

from partners.config.hindrance import of_file
from tests.faults.harness import FOUND, Server, Stem
from tests.faults.writers import TOKEN, Notes, Sent, Writer

KEPT = "Nothing you typed is lost"
NOBODY = 65_534
HIDDEN = re.compile(r'<input type="hidden" name="([^"]+)" value="([^"]*)">')


class Teacher:
    """Somebody at the server's pages, who sends again by the button that the page shows."""

    THERE: ClassVar[list[Writer]] = []

    def __init__(self, stem: Stem, server: Server) -> None:
        self.notes, self.serial = Notes(), 0
        self.writer = Writer(0, server.port, stem.made, self.notes, seed=1)
        self.THERE.append(self.writer)

    def moves_to(self, server: Server) -> None:
        server.wait()
        self.writer.close()
        self.writer.port = server.port

    def log_visit(self) -> tuple[int, str]:
        self.serial += 1
        mark = f"mark-{self.serial}"
        path, data = self.writer.visit(mark)
        return self.post(Sent(mark, path, {**data, "happened": "hello", "once": mark, "csrfmiddlewaretoken": TOKEN}))

    def post(self, sent: Sent) -> tuple[int, str]:
        self.notes.sent[sent.mark] = sent
        status, _place, page = self.writer.ask("POST", sent.path, urlencode(sent.data))
        sent.told = "saved" if status == 302 else ""
        return status, page

    def press_again(self, page: str) -> int:
        data = {name: html.unescape(value) for name, value in HIDDEN.findall(page)}
        return self.post(Sent(data["once"], "/visits/new/", data))[0]

    def is_sound(self, stem: Stem) -> bool:
        told = stem.judged_copy(self.notes)
        return {name: told[name] for name in FOUND} == {name: [] for name in FOUND}


@pytest.fixture(autouse=True)
def _nobody_left_at_a_page() -> Iterator[None]:
    yield
    for writer in Teacher.THERE:
        writer.close()


def refused(status: int, page: str, sentence: str) -> bool:
    """Whether the page says the sentence in our look, keeps what was typed, and shows nothing of the code."""
    return (status, sentence in page, KEPT in page, "tokens.css" in page, "Traceback" in page) == (
        503, True, True, True, False
    )  # fmt: skip


def test_where_no_more_can_be_written_it_says_so_and_goes_on_once_it_can(stem: Stem) -> None:
    server = Server(stem, file_size=150_000)
    server.wait()
    teacher = Teacher(stem, server)
    status, page = teacher.log_visit()
    while status == 302 and teacher.serial < 30:
        status, page = teacher.log_visit()
    assert refused(status, page, "refuses to read or to write")
    assert teacher.writer.ask("GET", "/")[0] == 200
    assert teacher.is_sound(stem)
    assert "Traceback" not in server.said()
    server.end()
    teacher.moves_to(Server(stem))
    assert teacher.press_again(page) == 302
    assert teacher.is_sound(stem)


def test_a_lock_that_another_program_holds_is_told_and_reading_goes_on(stem: Stem) -> None:
    server = Server(stem, timeout=0.2)
    server.wait()
    teacher = Teacher(stem, server)
    with closing(sqlite3.connect(stem.data / "book.sqlite3", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        status, page = teacher.log_visit()
        assert refused(status, page, "The book is busy")
        assert teacher.writer.ask("GET", "/")[0] == 200
        other.execute("ROLLBACK")
    assert teacher.press_again(page) == 302
    assert teacher.is_sound(stem)


@pytest.fixture
def read_only(stem: Stem) -> Any:
    """Turns the data folder to reading, for who is not root; and back at the end."""

    def turn(writable: bool) -> None:
        for path in (stem.data, *stem.data.iterdir()):
            path.chmod(path.stat().st_mode & 0o555 | (0o200 if writable else 0))

    yield turn
    turn(writable=True)
    if os.geteuid() == 0:
        give(stem.folder, 0)


def give(folder: Path, user: int) -> None:
    """The folder and everything in it to this user, and the way to it."""
    for path in (folder, *folder.rglob("*")):
        os.chown(path, user, user)
    for parent in folder.parents:
        if str(parent).startswith("/tmp/"):  # noqa: S108 -- the folder of this run of the tests
            parent.chmod(parent.stat().st_mode | 0o011)


def test_a_folder_that_turns_to_reading_only_is_told(stem: Stem, read_only: Any) -> None:
    root = os.geteuid() == 0
    if root:
        give(stem.folder, NOBODY)
    server = Server(stem, user=NOBODY if root else 0)
    server.wait_for_door()
    read_only(writable=False)
    teacher = Teacher(stem, server)
    status, page = teacher.log_visit()
    assert refused(status, page, "may not be written")
    assert teacher.writer.ask("GET", "/")[0] == 200
    server.end(signal.SIGTERM)
    read_only(writable=True)
    teacher.moves_to(Server(stem))
    assert teacher.press_again(page) == 302
    assert teacher.is_sound(stem)


@pytest.mark.nightly
@pytest.mark.skipif(os.geteuid() != 0, reason="only root may make a small disk")
def test_a_full_disk_is_told_as_one(tmp_path: Path) -> None:
    """A disk of 4 MB in memory, as `df` would show it: the system itself says that there is no room."""
    stem = Stem(tmp_path / "stem")
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", stem.data], check=False).returncode:
        pytest.skip("this machine lets nobody mount")
    try:
        stem.begin_anew()
        server = Server(stem)
        server.wait()
        teacher = Teacher(stem, server)
        (stem.data / "fill").write_bytes(bytes(1_500_000))
        status, page = teacher.log_visit()
        while status == 302 and teacher.serial < 200:
            status, page = teacher.log_visit()
        assert refused(status, page, "There is no room left on the disk")
        (stem.data / "fill").unlink()
        assert teacher.press_again(page) == 302
        assert teacher.is_sound(stem)
        server.end(signal.SIGTERM)
    finally:
        stem.end()
        subprocess.run(["umount", "-l", stem.data], check=False)


def test_a_start_in_a_folder_that_may_not_be_written_says_so_in_a_line(stem: Stem, read_only: Any) -> None:
    root = os.geteuid() == 0
    if root:
        give(stem.folder, NOBODY)
    read_only(writable=False)
    server = Server(stem, user=NOBODY if root else 0)
    assert server.end(how=0) == 1
    assert server.said() == f"Stopped: {of_file(PermissionError(errno.EACCES, ''), stem.data)}\n"
