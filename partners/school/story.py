"""Projects, as lines of the story of the colleague they are shared with."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.ground.story import StoryLine
from partners.school.project_models import PartBy, Project, ProjectPart


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    projects = desk.projects.filter(colleague=partner).prefetch_related("parts")
    return [line for project in projects for line in _told(desk, project)]


def _told(desk: Any, project: Project) -> Iterator[StoryLine]:
    title = {"title": project.title}
    until = date_format(project.ends_on, "DATE_FORMAT") if project.ends_on else ""
    for day, words, detail in (
        (project.invited_on, _("Invited to the project %(title)s"), ""),
        (project.begins_on, _("Project %(title)s"), _("until %(day)s") % {"day": until} if until else ""),
        (project.became_on, _("What became of %(title)s"), project.what_it_became),
    ):
        if day is not None and day <= desk.day:
            yield _line(project, project, day, words % title, detail)
    for part in project.parts.all():
        yield _part(project, part)


def _part(project: Project, part: ProjectPart) -> StoryLine:
    day: date = part.done_on or part.due or project.created_at.date()
    if part.done_on:
        state = _("done")
    else:
        state = _("by %(day)s") % {"day": date_format(part.due, "DATE_FORMAT")} if part.due else _("no day named")
    detail = f"{part.get_does_display()}, {project.title}, {state}"
    side = "us" if part.by == PartBy.US else "them"
    return _line(project, part, day, part.what, detail, side=side, open=part.done_on is None)


def _line(project: Project, row: Any, day: date, what: str, detail: str, **more: Any) -> StoryLine:
    return StoryLine(day, row.created_at, what, detail=detail, url=project.get_absolute_url(), **more)
