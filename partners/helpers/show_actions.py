"""Verbs: a show to hang, and what its jobs took in the end."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import Change, change
from partners.helpers.show_models import Show, ShowJob
from partners.helpers.show_plan import JOBS, JobOfShow
from partners.program.desk import Desk


@dataclass(frozen=True, kw_only=True)
class Took:
    """What a job really took: all helpers' minutes together, for so many works. None: not written down."""

    works: int | None
    minutes: int | None


def add_show(
    *, desk: Desk, title: str, opens_on: date, works: int, jobs: Iterable[JobOfShow] = (), **values: Any
) -> Show:
    """`jobs` are what is to be done; one that is left out is not done at this show."""
    with change(desk, gettext_noop("Show planned: %(title)s"), title=title) as book:
        show = book.add(Show(title=title, opens_on=opens_on, works=works, **values))
        _set_jobs(book, show, jobs)
        return show


def edit_show(
    *, desk: Desk, show: Show, jobs: Iterable[JobOfShow] | None = None, seen: int | None = None, **values: Any
) -> Show:
    """Without `jobs` they stay as they are. A job whose minutes were written down is never taken out."""
    with change(desk, gettext_noop("Show changed: %(title)s"), title=show.title) as book:
        book.update(show, seen=seen, **values)
        book.about(show)
        if jobs is not None:
            _set_jobs(book, show, jobs)
        return show


def remove_show(*, desk: Desk, show: Show) -> None:
    """Raises ProtectedError where sessions belong to it."""
    with change(desk, gettext_noop("Show taken out: %(title)s"), title=show.title) as book:
        book.about(show)
        for row in show.jobs.all():
            book.remove(row)
        book.remove(show)


def record_minutes(*, desk: Desk, show: Show, took: Mapping[str, Took]) -> Show:
    """What each job took, by its code; the next show is planned with the average of what was written down."""
    with change(desk, gettext_noop("Real minutes written down: %(title)s"), title=show.title) as book:
        book.about(show)
        for row in show.jobs.all():
            told = took.get(row.job)
            if told is not None and (told.works, told.minutes) != (row.real_works, row.real_minutes):
                book.update(row, real_works=told.works, real_minutes=told.minutes)
        return show


def _set_jobs(book: Change, show: Show, jobs: Iterable[JobOfShow]) -> None:
    stored = {row.job: row for row in show.jobs.all()}
    wanted = {job.job: job for job in jobs}
    for name in JOBS:
        row, job = stored.get(name), wanted.get(name)
        if job is None:
            if row is not None and row.real_minutes is None:
                book.remove(row)
            continue
        values = {"tenths_per_work": job.tenths, "works": job.works, "measured": job.measured}
        if row is None:
            book.add(ShowJob(show=show, job=name, **values))
        else:
            book.update(row, **values)
