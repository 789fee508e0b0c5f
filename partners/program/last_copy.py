"""What is known of the last copy of the book: a note beside the copies, written once one was looked through."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path

from django.conf import settings

A_WEEK = 7


@dataclass(frozen=True)
class LastCopy:
    """`sound`: it opened, and every stored fact in it follows from its record."""

    day: str
    rows: int
    sound: bool
    locked: bool = False

    @property
    def on(self) -> date:
        return date.fromisoformat(self.day)


def folder() -> Path:
    """Where copies lie unless another place is named. To read them is to read the book."""
    made: Path = settings.DATA_DIR / "copies"
    made.mkdir(mode=0o700, parents=True, exist_ok=True)
    return made


def last_copy() -> LastCopy | None:
    """The last copy that was looked through; None where there is none, or its note cannot be read."""
    try:
        return LastCopy(**json.loads((settings.DATA_DIR / "copies" / "last.json").read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return None


def note(copy: LastCopy) -> None:
    path = folder() / "last.json"
    part = path.with_name(".last.json.part")
    part.write_text(json.dumps(asdict(copy)), encoding="utf-8")
    part.replace(path)


def is_overdue(day: date, begun: date) -> bool:
    """Whether the last sound copy, or the beginning of the book where there is none, is more than a week ago."""
    copy = last_copy()
    since = copy.on if copy and copy.sound else begun
    return (day - since).days > A_WEEK
