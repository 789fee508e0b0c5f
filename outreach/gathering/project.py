"""The facts of a project's plan on one page, and of the letter that invites a colleague to share it."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet

from outreach.documents import colleague_invitation, joint_plan
from outreach.gathering.gratitude import unit_for, writes_to
from outreach.gathering.school import letterhead
from outreach.wording.counts import Item
from outreach.wording.project import INVITATION
from partners.asking.progress import still_needed_of
from partners.program.desk import Desk
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import held
from partners.school.project_actions import invited
from partners.school.project_models import PartBy, Project
from partners.wish_list.models import Need

MOST_NEEDS = 8


def projects(desk: Desk) -> QuerySet[Project]:
    rows: QuerySet[Project] = desk.projects.select_related("school", "colleague").prefetch_related("parts")
    return rows


def gather_plan(desk: Desk, project: Project, words: dict[str, Any] | None = None) -> joint_plan.Facts:
    yes = held(desk, project.school, ApprovalFor.PROJECTS, desk.day)
    needs = desk.needs.open().filter(project=project).order_by("needed_by", "pk")[:MOST_NEEDS]
    theirs = parts_of(project, PartBy.COLLEAGUE)
    return joint_plan.Facts(
        **known(desk, project, words or {}),
        about=project.about,
        shared=bool(project.colleague or project.subject or theirs),
        ours=parts_of(project, PartBy.US),
        theirs=theirs,
        shows=tuple((show.title, show.opens_on) for show in desk.shows.filter(project=project).order_by("opens_on")),
        needs=tuple(joint_plan.Need(item(desk, need), need.needed_by) for need in needs),
        approved_by=yes.by if yes else "",
        approved_on=yes.on if yes else None,
    )


def gather_invitation(desk: Desk, project: Project, words: dict[str, Any]) -> colleague_invitation.Facts:
    sides = {
        by: tuple((part.does, part.what) for part in parts_of(project, by)) for by in (PartBy.US, PartBy.COLLEAGUE)
    }
    facts = known(desk, project, words)
    return colleague_invitation.Facts(
        **facts,
        role=desk.signs.title,
        about=project.about,
        ours=sides[PartBy.US],
        theirs=sides[PartBy.COLLEAGUE],
        text=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", (INVITATION[facts["language"]].plan,))),
    )


def known(desk: Desk, project: Project, words: dict[str, Any]) -> dict[str, Any]:
    """What both sheets say of a project."""
    return {
        "language": words.get("language") or desk.program.language,
        "paper": desk.program.paper,
        "letterhead": letterhead(project.school, desk),
        "day": desk.day,
        "title": project.title,
        "teacher": desk.signs.teacher,
        "colleague": named(project),
        "subject": project.subject,
        "classes": classes_words(project),
        "children": project.children(),
        "begins_on": project.begins_on,
        "ends_on": project.ends_on,
        "shown_on": project.shown_on,
    }


def named(project: Project) -> str:
    """The colleague as one writes to them: the person there, where the partner is a school or a department."""
    contact = writes_to(project.colleague)
    return contact.name if contact else project.colleague.name if project.colleague else ""


def classes_words(project: Project) -> str:
    """`4-A, 4-B`; with the school where classes of several take part."""
    rows = list(project.classes.select_related("school_class__school"))
    schools = {row.school_class.school for row in rows}
    told = []
    for school in sorted(schools, key=lambda one: one.name):
        labels = ", ".join(row.school_class.label for row in rows if row.school_class.school == school)
        told.append(f"{labels} ({school.name})" if len(schools) > 1 else labels)
    return "; ".join(told)


def parts_of(project: Project, by: str) -> tuple[joint_plan.Part, ...]:
    rows = [part for part in project.parts.all() if part.by == by]
    return tuple(joint_plan.Part(part.does, part.what, part.due, part.done_on is not None) for part in rows)


def item(desk: Desk, need: Need) -> Item:
    return Item(need.what, still_needed_of(desk, need), unit_for(need.what, need.unit))


def went_out(desk: Desk, project: Project, _facts: Any) -> None:
    """The invitation was handed over."""
    invited(desk=desk, project=project, day=desk.day)
