"""Approvals that run out, or that lapsed with who gave them."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet
from django.utils.formats import date_format

from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _
from partners.school.approval_actions import edit_approval, holds_again
from partners.school.approval_models import ApprovalFor

ENDS, LAPSED = "school.approval", "school.lapsed"


def _line(row: tuple[Any, ...], day: date) -> DueLine:
    pk, ask_on, until, what_for, by, school_id, school = row
    if ask_on == until:
        why = _("this approval ends on its day")
    else:
        words = _("this approval ends on %(until)s") if until >= day else _("this approval ended on %(until)s")
        why = words % {"until": date_format(until, "MONTH_DAY_FORMAT")}
    return DueLine(
        source=ENDS,
        pk=pk,
        due=ask_on,
        hand=Hand.ASK,
        verb=_("Ask again"),
        who=by,
        who_url=row_link("school:school-detail", school_id),
        what=str(ApprovalFor(what_for).label),
        why=why,
        school_id=school_id,
        school=school,
        acts=(_record(pk, school_id), Act(_("Not needed again"), row_link("agenda:settle", pk, ENDS), code="done")),
    )


def _lapsed(row: tuple[Any, ...], day: date) -> DueLine:
    pk, lapsed_on, what_for, by, school_id, school, principal = row
    settle_at = row_link("agenda:settle", pk, LAPSED)
    return DueLine(
        source=LAPSED,
        pk=pk,
        due=lapsed_on,
        hand=Hand.ASK,
        verb=_("Ask the new principal"),
        who=principal or school,
        who_url=row_link("school:school-detail", school_id),
        what=str(ApprovalFor(what_for).label),
        why=_("the yes of %(by)s no longer holds") % {"by": by},
        school_id=school_id,
        school=school,
        acts=(
            _record(pk, school_id),
            Act(_("It still holds"), settle_at, code="holds"),
            Act(_("Not needed again"), settle_at, code="done"),
        ),
    )


def _record(pk: int, school_id: int) -> Act:
    return Act(_("Record the new one"), f"{row_link('school:approval-new', school_id)}?follows={pk}", opens=True)


def _ending(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.approvals.filter(ask_on__isnull=False, lapsed_on__isnull=True, renewed=False)
    return rows


def _all_lapsed(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.approvals.filter(lapsed_on__isnull=False, renewed=False)
    return rows


def _not_needed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    edit_approval(desk=desk, approval=row, renewed=True)


def _holds(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    holds_again(desk=desk, approval=row)


SOURCES = (
    DueSource(
        slug=ENDS,
        hand=Hand.ASK,
        rows=_ending,
        date_field="ask_on",
        columns=("pk", "ask_on", "until", "what_for", "by", "school_id", "school__name"),
        line=_line,
        settle={"done": _not_needed},
    ),
    DueSource(
        slug=LAPSED,
        hand=Hand.ASK,
        rows=_all_lapsed,
        date_field="lapsed_on",
        columns=("pk", "lapsed_on", "what_for", "by", "school_id", "school__name", "school__principal"),
        line=_lapsed,
        settle={"done": _not_needed, "holds": _holds},
    ),
)
