"""Which copies stay, and what is noted of the last one."""

from __future__ import annotations

import errno
import sqlite3
from datetime import date, timedelta

import pytest
from django.db import OperationalError

from partners.config.copy_runs import FULL, HELD, one_run
from partners.config.hindrance import Stopped
from partners.copies.form import CUT, Unreadable
from partners.copies.keeping import daily_copy, to_let_go
from partners.copies.placing import Held
from partners.program.last_copy import is_overdue, last_copy
from tests.copies.test_drill import AT

DAY = AT.date()


def test_the_newest_stay_however_old_and_the_young_stay_however_many():
    names = [f"daily-2026-{month:02}-01.book" for month in range(1, 11)]
    assert to_let_go(names, DAY, keep=4, days=60) == [f"daily-2026-{month:02}-01.book" for month in range(6, 0, -1)]
    assert to_let_go(names, DAY, keep=1, days=100) == [f"daily-2026-{month:02}-01.book" for month in range(6, 0, -1)]
    assert to_let_go(names, date(2030, 1, 1), keep=10, days=1) == []


def test_one_copy_a_day_is_made_looked_through_and_noted(folder, june):
    (folder / "copies").mkdir()
    for name in ("daily-2020-01-01.book", "daily-2020-01-02.book", "before-restore-2020-01-01-120000.book"):
        (folder / "copies" / name).touch()
    made = daily_copy(at=AT, keep=1, days=30)
    assert made.differing == []
    assert daily_copy(at=AT + timedelta(hours=3), keep=1, days=30) is None
    kept = sorted(path.name for path in (folder / "copies").iterdir())
    assert kept == ["before-restore-2020-01-01-120000.book", "daily-2026-10-06.book", "last.json"]
    assert last_copy().on == DAY
    assert not is_overdue(DAY + timedelta(days=7), DAY)
    assert is_overdue(DAY + timedelta(days=8), DAY)


@pytest.mark.parametrize(
    ("problem", "sentence"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), FULL),
        (sqlite3.OperationalError("database or disk is full"), FULL),
        (OperationalError("database or disk is full"), FULL),
        (Held(), HELD),
        (Unreadable(CUT), CUT),
    ],
)
def test_what_stands_in_the_way_is_one_sentence(folder, problem, sentence):
    with pytest.raises(Stopped) as stopped, one_run():
        raise problem
    assert str(stopped.value) == sentence
