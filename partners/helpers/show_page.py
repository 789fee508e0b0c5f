"""What the page of a show lays out: jobs, days back from the opening, panels by class, sessions still wanted."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date
from typing import Any
from urllib.parse import urlencode

from django.db.models import Sum
from django.urls import reverse

from partners.exchanges.apportion import largest_remainder
from partners.helpers.job_cards import ready_card
from partners.helpers.jobs import Job
from partners.helpers.session_models import Session
from partners.helpers.show_models import Show, ShowJob
from partners.helpers.show_plan import (
    JobOfShow,
    Recorded,
    ShowPlan,
    Task,
    Wish,
    average_tenths,
    helpers_to_be_ready,
    panels,
    people_for,
    plan_show,
)
from partners.program.desk import Desk
from partners.school.calendar import NoSchoolDay, SchoolCalendar
from partners.school.clock import clock


@dataclass(frozen=True)
class JobLine:
    """One job on the page. `people` do it in the hours that were asked about; `planned` sessions stand in the book."""

    task: Task
    row: ShowJob
    label: str
    people: int | None
    planned: int
    wanted: int
    session_url: str
    late: bool


@dataclass(frozen=True)
class ClassPanels:
    label: str
    works: int
    panels: int


def averages(desk: Desk, apart: Show | None = None) -> dict[str, int]:
    """Minutes a work, in tenths, by job: the average of what was written down at other shows."""
    rows = desk.program.show_jobs.filter(real_minutes__isnull=False)
    if apart is not None and apart.pk:
        rows = rows.exclude(show=apart)
    sums = rows.order_by().values("job").annotate(works=Sum("real_works"), minutes=Sum("real_minutes"))
    found = {told["job"]: average_tenths([Recorded(told["works"], told["minutes"])]) for told in sums}
    return {job: tenths for job, tenths in found.items() if tenths is not None}


def wish_of(show: Show) -> Wish:
    return Wish(
        show.works,
        show.opens_on,
        show.closes_on,
        show.first_timers_percent,
        show.helpers_at_once,
        show.session_minutes,
    )


def jobs_of(rows: list[ShowJob]) -> list[JobOfShow]:
    return [JobOfShow(row.job, row.works, row.tenths_per_work, row.measured) for row in rows]


def show_page(desk: Desk, show: Show, hours: int | None) -> dict[str, Any]:
    """Everything the page shows; `hours` is the time that was asked about. Without a school day, no plan but why."""
    rows = list(show.jobs.all())
    calendar = clock(desk.program, show.school_id)
    sessions = list(desk.sessions.filter(show=show).select_related("school").order_by("day", "starts"))
    context: dict[str, Any] = {"sessions": sessions, "panels": class_panels(desk, show)}
    context["panels_alone"] = sum(one.panels for one in context["panels"])
    context["panels_shared"] = panels(show.works, show.works_per_panel)
    try:
        plan = plan_show(wish_of(show), jobs_of(rows), calendar)
    except NoSchoolDay as error:
        return context | {"no_plan": error}
    lines = job_lines(desk, show, rows, plan, sessions, hours, calendar)
    before = [line for line in lines if line.task.first is not None and line.task.first < show.opens_on]
    late = plan.collect_by < desk.day <= show.opens_on and not any(row.real_minutes for row in rows)
    return context | {
        "plan": plan,
        "lines": lines,
        "before": before,
        "after": [line for line in lines if line.task.first is not None and line not in before],
        "late": late,
        "enough": enough(show, rows, calendar, desk.day) if late else None,
        "anything_real": any(row.real_minutes for row in rows),
    }


def enough(show: Show, rows: list[ShowJob], calendar: SchoolCalendar, today: date) -> int | None:
    return helpers_to_be_ready(wish_of(show), jobs_of(rows), calendar, today)


def job_lines(
    desk: Desk,
    show: Show,
    rows: list[ShowJob],
    plan: ShowPlan,
    sessions: list[Session],
    hours: int | None,
    calendar: SchoolCalendar,
) -> list[JobLine]:
    planned = Counter(session.job for session in sessions if session.called_off_on is None)
    by_job = {row.job: row for row in rows}
    return [
        JobLine(
            task=task,
            row=by_job[task.job],
            label=str(Job(task.job).label),
            people=people_for(task.minutes, hours * 60) if hours else None,
            planned=planned[task.job],
            wanted=max(0, task.sessions - planned[task.job]) if task.last is None or task.last >= desk.day else 0,
            session_url=session_url(show, task, planned[task.job], calendar),
            late=task.first is not None and task.first < desk.day,
        )
        for task in plan.tasks
    ]


def session_url(show: Show, task: Task, planned: int, calendar: SchoolCalendar) -> str:
    """The form of a new session with all that the show knows filled in; the day is the next one that is still free."""
    asked: dict[str, Any] = {"show": show.pk, "job": task.job, "needed": task.helpers}
    if show.place:
        asked["place"] = show.place
    if show.school_id:
        asked["school"] = show.school_id
    if task.first is not None and task.last is not None:
        asked["day"] = min(task.last, calendar.add(task.first, planned)).isoformat()
    return f"{reverse('helpers:session-new')}?{urlencode(asked)}"


def class_panels(desk: Desk, show: Show) -> list[ClassPanels]:
    """The works shared over the classes by their size (largest remainder); each class on panels of its own."""
    classes = desk.classes.with_students().select_related("school")
    found = list(classes.filter(school=show.school_id) if show.school_id else classes)
    several = len({one.school_id for one in found}) > 1
    if not found:
        return []
    shares = largest_remainder(show.works, [one.students for one in found])
    return [
        ClassPanels(f"{one.label}, {one.school}" if several else one.label, share, panels(share, show.works_per_panel))
        for one, share in zip(found, shares, strict=True)
        if share
    ]


def card_for(session: Session, language: str) -> Any:
    """The session's own card, else the one to begin with for its job; None where neither is there."""
    return session.card or ready_card(session.job, language)
