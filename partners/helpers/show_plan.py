"""The plan of a show: minutes of every job, helpers and sessions, panels, and back from the opening over school days.

    made = plan_show(Wish(works=240, opens_on=day, helpers=3, session_minutes=60), starting_works(240), calendar)

Figures to start from are estimates of the trade; what was really written down replaces them. Whole numbers throughout:
minutes a work in tenths, so that 2.5 is 25.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from partners.school.calendar import NoSchoolDay, SchoolCalendar

# Minutes a work, in tenths: estimates of the trade to start from, until real minutes are written down.
START_TENTHS: Mapping[str, int] = MappingProxyType(
    {"cutting": 10, "mounting": 30, "labelling": 10, "hanging": 25, "taking_down": 10, "sorting": 5}
)
BEFORE = ("cutting", "mounting", "labelling", "hanging")
AFTER = ("taking_down", "sorting")
JOBS = (*BEFORE, *AFTER)
# Nobody stands on a ladder without a second adult beside it (common practice).
IN_PAIRS = frozenset({"hanging", "taking_down"})
MOST_HELPERS = 30


@dataclass(frozen=True)
class Recorded:
    """What one job of an earlier show took: all helpers' minutes together, for so many works."""

    works: int
    minutes: int


@dataclass(frozen=True)
class JobOfShow:
    """One job: works it is done to, tenths of a minute each; `measured` where these were written down earlier."""

    job: str
    works: int
    tenths: int
    measured: bool = False


@dataclass(frozen=True)
class Wish:
    """The show and its helpers: so many come to a session of so many minutes."""

    works: int
    opens_on: date
    closes_on: date | None = None
    more_percent: int = 20
    helpers: int = 3
    session_minutes: int = 60


@dataclass(frozen=True)
class Task:
    """One job laid out: helpers at once, sessions it takes, the first and the last school day of them.

    Days are None for what comes after the show while nobody said when it ends.
    """

    job: str
    works: int
    minutes: int
    helpers: int
    sessions: int
    first: date | None
    last: date | None


@dataclass(frozen=True)
class ShowPlan:
    """All jobs in the order of work; `collect_by` is the school day on which the works must be together."""

    tasks: tuple[Task, ...]
    collect_by: date

    @property
    def minutes(self) -> int:
        return sum(task.minutes for task in self.tasks)


def starting_works(works: int) -> tuple[JobOfShow, ...]:
    """Every job of a show with the figures to start from."""
    return tuple(JobOfShow(job, works, START_TENTHS[job]) for job in JOBS)


def average_tenths(recorded: Iterable[Recorded]) -> int | None:
    """Minutes a work, in tenths, over all works that were recorded; half a tenth counts up. None without any."""
    shows = list(recorded)
    works, minutes = sum(show.works for show in shows), sum(show.minutes for show in shows)
    if not works:
        return None
    return max(1, (20 * minutes + works) // (2 * works))


def minutes_of(job: JobOfShow, more_percent: int) -> int:
    """Whole minutes of all helpers together, counted up. Measured minutes hold the first-timers already."""
    percent = 100 if job.measured else 100 + more_percent
    return _up(job.works * job.tenths * percent, 1000)


def people_for(minutes: int, at_hand: int) -> int:
    """How many helpers do so many minutes of work in `at_hand` minutes."""
    if at_hand < 1:
        raise ValueError("There must be some minutes to work in.")
    return _up(minutes, at_hand)


def helpers_at(job: str, helpers: int) -> int:
    return max(helpers, 2) if job in IN_PAIRS else max(helpers, 1)


def sessions_for(minutes: int, helpers: int, session_minutes: int) -> int:
    return people_for(minutes, helpers * session_minutes)


def panels(works: int, works_per_panel: int) -> int:
    if works_per_panel < 1:
        raise ValueError("A panel holds at least one work.")
    return _up(works, works_per_panel)


def plan_show(wish: Wish, jobs: Sequence[JobOfShow], calendar: SchoolCalendar) -> ShowPlan:
    """One session a school day, counted back: the last one of hanging is on the school day before the opening, and
    each job is done before the next begins. Taking down begins on the last day or the next school day.

    Raises NoSchoolDay where the calendar has no such day.
    """
    known = {job.job: job for job in jobs}
    tasks: list[Task] = []
    free = calendar.add(wish.opens_on, -1)
    for job in (known[name] for name in reversed(BEFORE) if name in known):
        task = _laid(wish, job)
        if task.sessions:
            first = _back(calendar, free, task.sessions - 1)
            tasks.insert(0, _on(task, first, free))
            free = calendar.add(first, -1)
        else:
            tasks.insert(0, task)
    collect_by = free
    return ShowPlan((*tasks, *_afterwards(wish, known, calendar)), collect_by)


def _afterwards(wish: Wish, known: Mapping[str, JobOfShow], calendar: SchoolCalendar) -> list[Task]:
    tasks = []
    free = calendar.on_or_after(wish.closes_on) if wish.closes_on else None
    for job in (known[name] for name in AFTER if name in known):
        task = _laid(wish, job)
        if free is not None and task.sessions:
            last = calendar.add(free, task.sessions - 1)
            tasks.append(_on(task, free, last))
            free = calendar.add(last, 1)
        else:
            tasks.append(task)
    return tasks


def helpers_to_be_ready(wish: Wish, jobs: Sequence[JobOfShow], calendar: SchoolCalendar, today: date) -> int | None:
    """The fewest helpers with whom the works need not have been collected before today; None where none would do."""
    for helpers in range(1, MOST_HELPERS + 1):
        larger = Wish(wish.works, wish.opens_on, wish.closes_on, wish.more_percent, helpers, wish.session_minutes)
        try:
            if plan_show(larger, jobs, calendar).collect_by >= today:
                return helpers
        except NoSchoolDay:
            continue
    return None


def _laid(wish: Wish, job: JobOfShow) -> Task:
    minutes, helpers = minutes_of(job, wish.more_percent), helpers_at(job.job, wish.helpers)
    return Task(job.job, job.works, minutes, helpers, sessions_for(minutes, helpers, wish.session_minutes), None, None)


def _on(task: Task, first: date, last: date) -> Task:
    return Task(task.job, task.works, task.minutes, task.helpers, task.sessions, first, last)


def _back(calendar: SchoolCalendar, day: date, n: int) -> date:
    return calendar.add(day, -n)


def _up(whole: int, part: int) -> int:
    return -(-whole // part)
