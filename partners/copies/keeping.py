"""Makes copies, looks each one through before it counts, and lets old ones go."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import IO

from django.conf import settings

from partners.copies.form import SEALED_SUFFIX, SUFFIX, Contents, Unreadable
from partners.copies.reading import beside, what_differs
from partners.copies.sealing import seal, unseal
from partners.copies.writing import write_book
from partners.program.last_copy import LastCopy, folder, note

DAILY = re.compile(r"daily-(\d{4}-\d\d-\d\d)\.book(\.age)?")
Write = Callable[..., Contents]
# Windows would otherwise change the ends of lines.
BYTES: int = getattr(os, "O_BINARY", 0)
NOT_READ_BACK = (
    "The copy could not be read back, so it does not count: the book or the disk may be damaged. Run check_book, and "
    "keep the copies you have."
)


@dataclass(frozen=True)
class Made:
    """A copy that was made and looked through; `differing` is what `check_book` says of what it holds."""

    path: Path
    contents: Contents
    differing: list[str]


@contextmanager
def work_folder() -> Iterator[Path]:
    """A place for the book of a copy while it is looked through, readable by its owner alone."""
    made = tempfile.mkdtemp(prefix="copy-work-", dir=settings.DATA_DIR)
    try:
        yield Path(made)
    finally:
        shutil.rmtree(made, ignore_errors=True)


def sweep() -> None:
    """Takes away what runs that were killed left behind; only while no other runs."""
    for left in settings.DATA_DIR.glob("copy-work-*"):
        shutil.rmtree(left, ignore_errors=True)
    for left in (settings.DATA_DIR / "copies").glob(".*.part"):
        left.unlink(missing_ok=True)


def dated(word: str, at: datetime, sealed: bool) -> str:
    return f"{word}-{at:%Y-%m-%d-%H%M%S}{SEALED_SUFFIX if sealed else SUFFIX}"


def make_copy(*, to: Path, at: datetime, passphrase: str | None = None, write: Write = write_book) -> Made:
    """A copy at `to`, which holds nothing or an earlier copy until this one is whole and looked through.

    Raises Unreadable where what was written cannot be read back, OSError where there is no room.
    """
    part = to.with_name(f".{to.name}.part")
    try:
        with work_folder() as work:
            plain = work / "plain.book" if passphrase else part
            with _own(plain) as file:
                contents = write(file=file, at=at)
                file.flush()
                os.fsync(file.fileno())
            differing = looked_through(plain, work)
            if passphrase:
                _seal(plain, part, passphrase)
            part.replace(to)
            _settle(to.parent)
    finally:
        part.unlink(missing_ok=True)
    return Made(to, contents, differing)


def looked_through(plain: Path, work: Path) -> list[str]:
    """What `check_book` says of the copy's book; raises Unreadable where it cannot be opened."""
    try:
        with beside(plain, work / "book.sqlite3"):
            return what_differs()
    except Unreadable as problem:
        raise Unreadable(NOT_READ_BACK) from problem


def _own(path: Path) -> IO[bytes]:
    """A new file that only its owner reads."""
    path.unlink(missing_ok=True)
    return os.fdopen(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | BYTES, 0o600), "w+b")


def _seal(plain: Path, part: Path, passphrase: str) -> None:
    with _own(part) as file:
        file.write(seal(plain, passphrase))
        file.flush()
        os.fsync(file.fileno())
    if hashlib.sha256(unseal(part, passphrase)).digest() != hashlib.sha256(plain.read_bytes()).digest():
        raise OSError("What was locked does not open again.")


def _settle(place: Path) -> None:
    """The name is on the disk too, where the system has a way to ask for that."""
    with suppress(OSError):
        descriptor = os.open(place, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def noted(made: Made, at: datetime, passphrase: str | None) -> Made:
    note(LastCopy(at.date().isoformat(), made.contents.rows, not made.differing, bool(passphrase)))
    return made


def daily_copy(*, at: datetime, keep: int, days: int, passphrase: str | None = None) -> Made | None:
    """The copy of this day, unless there is one; then those that are too many and too old go, if it is sound."""
    place = folder()
    if any(match[1] == at.date().isoformat() for match in _daily(place)):
        return None
    to = place / f"daily-{at:%Y-%m-%d}{SEALED_SUFFIX if passphrase else SUFFIX}"
    made = noted(make_copy(to=to, at=at, passphrase=passphrase), at, passphrase)
    if not made.differing:
        for name in to_let_go([match[0] for match in _daily(place)], at.date(), keep=keep, days=days):
            (place / name).unlink()
    return made


def _daily(place: Path) -> list[re.Match[str]]:
    return [match for path in place.iterdir() if (match := DAILY.fullmatch(path.name))]


def kept_days() -> list[date]:
    """The days of which a daily copy is kept."""
    place = settings.DATA_DIR / "copies"
    return [date.fromisoformat(match[1]) for match in _daily(place)] if place.is_dir() else []


def to_let_go(names: Sequence[str], day: date, *, keep: int, days: int) -> list[str]:
    """Of daily copies, those that are older than `days` and not among the newest `keep`."""
    oldest = f"daily-{day - timedelta(days=days):%Y-%m-%d}"
    return [name for name in sorted(names, reverse=True)[keep:] if name < oldest]
