"""Whether migrations wait, and what a database that refuses makes the start say."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from django.db import OperationalError, connection
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.recorder import MigrationRecorder

from partners.config import hindrance, new_database, readiness
from tests.migrated import another_database, with_migrations


@pytest.fixture
def ready(whole: Any, django_db_blocker: Any, monkeypatch: pytest.MonkeyPatch) -> Iterator[Any]:
    """The start finds a whole database; tests/whole_site/test_migrations.py sees that the migrations make the same."""
    monkeypatch.setattr(readiness, "connection", whole)
    with django_db_blocker.unblock(), with_migrations():
        yield whole


@pytest.fixture(scope="module")
def whole(django_db_setup: None, django_db_blocker: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    with django_db_blocker.unblock():
        made = another_database(tmp_path_factory.mktemp("whole"), "whole", new_database.make_tables)
        database = made.__enter__()
    yield database
    with django_db_blocker.unblock():
        made.__exit__(None, None, None)


def test_nothing_waits_once_all_is_migrated(ready):
    assert readiness.is_pending() is False


def test_a_migration_not_yet_run_waits(ready):
    MigrationRecorder(ready).record_unapplied("partners", "0001_initial")
    assert readiness.is_pending() is True
    MigrationRecorder(ready).record_applied("partners", "0001_initial")


def test_the_quick_look_finds_the_migrations_that_django_finds(ready):
    on_disk = MigrationExecutor(ready).loader.disk_migrations
    assert readiness.migrations_on_disk() == set(on_disk)


@pytest.fixture
def sqlite_only(settings: Any) -> None:
    if connection.vendor != "sqlite":
        pytest.skip("these are SQLite's own words")


def refusal(statement: str, *before: str, path: str) -> str:
    """What SQLite itself says to the statement."""
    with closing(sqlite3.connect(path, uri=True, timeout=0, isolation_level=None)) as book:
        for line in before:
            book.execute(line)
        with pytest.raises(sqlite3.OperationalError) as refused:
            book.execute(statement)
    return str(refused.value)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "book.sqlite3"
    with sqlite3.connect(path) as made:
        made.execute("CREATE TABLE visit (note TEXT)")
    made.close()
    return path


WRITE = "INSERT INTO visit VALUES (hex(randomblob(100000)))"


def test_a_book_on_a_full_disk_is_told(book, sqlite_only):
    said = refusal(WRITE, "PRAGMA max_page_count = 3", path=f"file:{book}")
    assert str(readiness.of_database(OperationalError(said))) == hindrance.FULL


def test_a_read_only_book_is_told_with_its_folder(book, sqlite_only):
    said = refusal(WRITE, path=f"file:{book}?mode=ro")
    folder = Path(connection.settings_dict["NAME"]).parent
    assert f"The book in {folder} cannot be written" in str(readiness.of_database(OperationalError(said)))


def test_a_book_in_a_folder_that_cannot_be_opened_is_told(tmp_path, sqlite_only):
    with pytest.raises(sqlite3.OperationalError) as refused:
        sqlite3.connect(tmp_path / "nowhere" / "book.sqlite3")
    assert "cannot be written" in str(readiness.of_database(OperationalError(str(refused.value))))


def test_a_book_that_another_program_holds_is_told(book, sqlite_only):
    holder = sqlite3.connect(book, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    said = refusal(WRITE, path=f"file:{book}")
    holder.close()
    assert "Another program holds the book" in str(readiness.of_database(OperationalError(said)))


def test_a_fault_of_the_project_is_not_put_on_the_teacher(sqlite_only):
    fault = OperationalError("no such table: partners_visit")
    with pytest.raises(OperationalError) as raised:
        readiness.of_database(fault)
    assert raised.value is fault


def test_an_interrupt_beneath_a_complaint_of_the_database_is_seen():
    complaint = OperationalError("foreign key mismatch")
    complaint.__context__ = KeyboardInterrupt()
    assert readiness._is_interrupted(complaint)
    assert not readiness._is_interrupted(OperationalError("no such table"))
