"""Which pictures and papers a person may see, and which may be printed."""

from __future__ import annotations

from functools import reduce
from operator import or_
from typing import Any

from django.db.models import Q, QuerySet

from partners.program.desk import Desk
from partners.program.file_models import Attachment, FileKind
from partners.program.models import Opened

# What a picture or paper can belong to: the attachment's column, and what the desk calls such rows.
OWNERS = {
    "project": "projects",
    "grant": "grants",
    "purchase": "purchases",
    "approval": "approvals",
    "certificate": "certificates",
}
# What is told to others with pictures: there the tick is asked.
TOLD = ("grant", "project")


def shown(desk: Desk) -> QuerySet[Attachment]:
    """What the person may open: what belongs to rows of their schools; for guests only a project's ticked pictures."""
    rows: QuerySet[Attachment] = desk.attachments
    if not desk.writes:
        if not desk.reads(Opened.PROJECTS):
            return rows.none()
        rows = printable(rows).filter(project__isnull=False, purchase=None, approval=None, certificate=None)
    if desk.school_ids:
        rows = rows.filter(reduce(or_, (Q(**{f"{one}__in": getattr(desk, many)}) for one, many in OWNERS.items())))
    return rows


def printable(rows: QuerySet[Attachment]) -> QuerySet[Attachment]:
    """Pictures with the tick. Without it a picture is printed nowhere."""
    return rows.filter(shows_no_child=True, file__kind=FileKind.PICTURE)


def attachments_of(desk: Desk, **owner: Any) -> list[Attachment]:
    """What the person may see of one row, `grant=…` or `purchase=…` and so on, without the bytes."""
    return list(shown(desk).filter(**owner).select_related("file").defer("file__content"))


def owner_of(attachment: Attachment) -> Any:
    """The row that it belongs to."""
    return next(row for row in (getattr(attachment, name) for name in OWNERS) if row is not None)
