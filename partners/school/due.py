"""Approvals that run out."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet

from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _
from partners.school.actions import edit_approval
from partners.school.approval_models import ApprovalFor


def _line(row: tuple[Any, ...], day: date) -> DueLine:
    pk, until, what_for, by, school_id, school = row
    renew = f"{row_link('school:approval-new', school_id)}?follows={pk}"
    return DueLine(
        source="school.approval",
        pk=pk,
        due=until,
        hand=Hand.ASK,
        verb=_("Ask again"),
        who=by,
        who_url=row_link("school:school-detail", school_id),
        what=str(ApprovalFor(what_for).label),
        why=_("this approval ends on its day"),
        school_id=school_id,
        school=school,
        acts=(
            Act(_("Record the new one"), renew, opens=True),
            Act(_("Not needed again"), row_link("agenda:settle", pk, "school.approval"), code="done"),
        ),
    )


def _rows(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.approvals.filter(until__isnull=False, renewed=False)
    return rows


def _not_needed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    edit_approval(desk=desk, approval=row, renewed=True)


SOURCES = (
    DueSource(
        slug="school.approval",
        hand=Hand.ASK,
        rows=_rows,
        date_field="until",
        columns=("pk", "until", "what_for", "by", "school_id", "school__name"),
        line=_line,
        settle={"done": _not_needed},
    ),
)
