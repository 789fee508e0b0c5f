"""Projects: what they are, who takes part and shares the work, and what they became."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.program.desk import Desk
from partners.school.models import SchoolClass
from partners.school.project_models import PartBy, Project, ProjectClass, ProjectPart


def add_project(*, desk: Desk, title: str, **values: Any) -> Project:
    with change(desk, gettext_noop("Project %(title)s added"), title=title) as book:
        return book.add(Project(title=title, **values, **_became(desk, None, values)))


def edit_project(*, desk: Desk, project: Project, seen: int | None = None, **values: Any) -> Project:
    with change(desk, gettext_noop("Project %(title)s changed"), title=project.title) as book:
        return book.update(project, seen=seen, **values, **_became(desk, project.became_on, values))


def _became(desk: Desk, before: date | None, values: dict[str, Any]) -> dict[str, Any]:
    """The day on which it was first said what a project became. Putting the sentence right later does not move it."""
    if "what_it_became" not in values:
        return {}
    if not values["what_it_became"]:
        return {"became_on": None}
    return {"became_on": before or desk.day, "nothing_to_tell": False}


def say_became(
    *, desk: Desk, project: Project, what_it_became: str, became_count: int | None = None, seen: int | None = None
) -> Project:
    """One sentence for the people who gave; it closes the question that is asked when a project ends."""
    with change(desk, gettext_noop("What became of %(title)s is said"), title=project.title):
        told = {"what_it_became": what_it_became, "became_count": became_count}
        return edit_project(desk=desk, project=project, seen=seen, **told)


def nothing_to_tell(*, desk: Desk, project: Project) -> Project:
    """The question is closed without a sentence."""
    with change(desk, gettext_noop("Nothing to tell of %(title)s"), title=project.title) as book:
        return book.update(project, nothing_to_tell=True)


def move_end(*, desk: Desk, project: Project, due: date) -> Project:
    with change(desk, gettext_noop("Project %(title)s ends later"), title=project.title) as book:
        return book.update(project, ends_on=due)


def invited(*, desk: Desk, project: Project, day: date) -> Project:
    """The letter to the colleague went out; the first day stands."""
    with change(desk, gettext_noop("Colleague invited to %(title)s"), title=project.title) as book:
        return project if project.invited_on else book.update(project, invited_on=day)


def choose_classes(*, desk: Desk, project: Project, classes: Collection[SchoolClass]) -> Project:
    """These take part and no others of the person's schools."""
    with change(desk, gettext_noop("Classes of %(title)s chosen"), title=project.title) as book:
        book.about(project)
        stored = {row.school_class_id: row for row in project.classes.filter(school_class__in=desk.classes)}
        wanted = {one.pk: one for one in classes}
        for pk in stored.keys() - wanted.keys():
            book.remove(stored[pk])
        for pk in wanted.keys() - stored.keys():
            book.add(ProjectClass(project=project, school_class=wanted[pk]))
        return project


def add_part(
    *,
    desk: Desk,
    project: Project,
    what: str,
    by: str = PartBy.US,
    does: str = "brings",
    due: date | None = None,
    done_on: date | None = None,
) -> ProjectPart:
    """What one of the two brings or teaches."""
    with change(desk, gettext_noop("Part of %(title)s: %(what)s"), title=project.title, what=what) as book:
        book.about(project)
        last = project.parts.order_by("-position").values_list("position", flat=True).first() or 0
        part = ProjectPart(project=project, position=last + 1, by=by, does=does, what=what, due=due, done_on=done_on)
        return book.add(part)


def edit_part(*, desk: Desk, part: ProjectPart, seen: int | None = None, **values: Any) -> ProjectPart:
    with change(desk, gettext_noop("Part changed: %(what)s"), what=part.what) as book:
        book.about(part.project)
        return book.update(part, seen=seen, **values)


def remove_part(*, desk: Desk, part: ProjectPart) -> None:
    with change(desk, gettext_noop("Part taken out: %(what)s"), what=part.what) as book:
        book.about(part.project)
        book.remove(part)


def part_done(*, desk: Desk, part: ProjectPart, day: date) -> ProjectPart:
    with change(desk, gettext_noop("Done: %(what)s"), what=part.what) as book:
        book.about(part.project)
        return book.update(part, done_on=day)


def part_open_again(*, desk: Desk, part: ProjectPart) -> ProjectPart:
    with change(desk, gettext_noop("Not done yet: %(what)s"), what=part.what) as book:
        book.about(part.project)
        return book.update(part, done_on=None)


def move_part(*, desk: Desk, part: ProjectPart, due: date) -> ProjectPart:
    with change(desk, gettext_noop("Moved: %(what)s"), what=part.what) as book:
        book.about(part.project)
        return book.update(part, due=due)
