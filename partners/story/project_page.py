"""The page of one project: who shares the work, by when, what came for it, and what it became."""

from __future__ import annotations

from typing import Any

from django.db.models import Q

from partners.program.desk import Desk
from partners.program.files import attachments_of
from partners.program.models import Opened
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import standing
from partners.school.project_models import PartBy, Project


def context(desk: Desk, project: Project) -> dict[str, Any]:
    """What a guest may not read elsewhere is not told here either."""
    parts = list(project.parts.all())
    return {
        "project": project,
        "ours": [part for part in parts if part.by == PartBy.US],
        "theirs": [part for part in parts if part.by == PartBy.COLLEAGUE],
        "classes": classes_of(desk, project),
        "children": project.children(),
        "needs": of(desk, "needs", Opened.WISH_LIST, project),
        "trades": of(desk, "trades", Opened.TRADES, project),
        "shows": of(desk, "shows", Opened.HELPERS, project),
        "grants": of(desk, "grants", Opened.MONEY, project),
        "gifts": gifts_for(desk, project),
        "pictures": attachments_of(desk, project=project),
        "standing": standing(desk, project.school, ApprovalFor.PROJECTS, project.begins_on),
        "ended": project.ends_on is not None and project.ends_on <= desk.day,
    }


def of(desk: Desk, kind: str, opened: Opened, project: Project) -> list[Any]:
    return list(getattr(desk, kind).filter(project=project)) if desk.reads(opened) else []


def gifts_for(desk: Desk, project: Project) -> list[Any]:
    """What came for it, also for one of its needs."""
    if not desk.reads(Opened.GIFTS):
        return []
    came = Q(project=project) | Q(lines__need__project=project)
    return list(desk.gifts.filter(came).distinct().select_related("partner").prefetch_related("lines"))


def classes_of(desk: Desk, project: Project) -> list[tuple[str, str]]:
    """School by school the labels of its classes: ("Millrace Elementary", "4-A, 4-B")."""
    rows = project.classes.select_related("school_class__school")
    found: dict[str, list[str]] = {}
    for row in rows:
        found.setdefault(row.school_class.school.name, []).append(row.school_class.label)
    return [(school, ", ".join(labels)) for school, labels in found.items()]
