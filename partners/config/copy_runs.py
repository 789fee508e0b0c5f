"""What the commands for copies share: one at a time, the passphrase, and each refusal as one sentence."""

from __future__ import annotations

import errno
import getpass
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.conf import settings
from django.db import DatabaseError, OperationalError

from partners.config.hindrance import Stopped
from partners.config.one_at_a_time import one_at_a_time
from partners.config.readiness import of_database
from partners.copies.form import Unreadable
from partners.copies.keeping import sweep
from partners.copies.placing import Held
from partners.copies.sealing import Sealed, checked, passphrase_told, unseal

FULL = "There is not enough room on the disk. Nothing was changed: free some and run the same command again."
HELD = "Another program holds the book, so nothing was changed: end it (or the other window), then run it again."
NOBODY_TO_ASK = (
    "There is nobody to ask for the passphrase: set PARTNER_BOOK_PASSPHRASE_FILE to a file that holds it, "
    "and run the same command again."
)


@contextmanager
def one_run() -> Iterator[None]:
    """One command for copies at a time; whatever stands in its way becomes Stopped."""
    try:
        with one_at_a_time(settings.DATA_DIR / "copies.lock", "Another copy is being made or restored; waiting."):
            sweep()
            yield
    except (Unreadable, Sealed) as refused:
        raise Stopped(str(refused)) from refused
    except Held as held:
        raise Stopped(HELD) from held
    except OSError as problem:
        if problem.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise Stopped(FULL) from problem
        where = problem.filename or "the disk"
        raise Stopped(f"Partner Book cannot use {where} ({problem.strerror or problem}).") from problem
    except (DatabaseError, sqlite3.Error) as problem:
        if "is full" in str(problem):
            raise Stopped(FULL) from problem
        if isinstance(problem, OperationalError):
            raise of_database(problem) from problem
        # As SQLite puts it when a write fails half-way; the transaction is taken back.
        raise Stopped(f"The database refused ({problem}). Nothing was changed.") from problem


def passphrase_for_new(wanted: bool) -> str | None:
    """Told by a variable, or typed twice where it is wanted; None for a copy that is not locked."""
    told = passphrase_told()
    if told or not wanted:
        return told
    _must_be_asked()
    first = checked(getpass.getpass("Passphrase for the copy (you need it again to restore it): "))
    if getpass.getpass("Once more: ") != first:
        raise Sealed("The two passphrases are not the same, so no copy was made.")
    return first


def opened_copy(file: Path, work: Path) -> Path:
    """The copy in the clear, in the work folder."""
    passphrase = passphrase_told()
    if passphrase is None:
        _must_be_asked()
        passphrase = getpass.getpass("Passphrase of the copy: ")
    plain = work / "plain.book"
    plain.touch(mode=0o600)
    plain.write_bytes(unseal(file, passphrase))
    return plain


def _must_be_asked() -> None:
    if not sys.stdin.isatty():
        raise Sealed(NOBODY_TO_ASK)
