"""The table "Who must say yes here" on a school's page, and what is filled in before somebody types."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from partners.program.desk import Desk
from partners.school.approval_models import Approval, ApprovalFor, Procedure
from partners.school.approvals import needed
from partners.school.models import ClosureKind, School


@dataclass(frozen=True)
class YesRow:
    """One thing that needs a yes. `approval` is the one that counts today, else the latest there was.

    `counts` False beside an approval: it is over, lapsed, begins later, or was for one time only.
    """

    what_for: str
    label: str
    procedure: Procedure | None
    approval: Approval | None
    counts: bool
    follows: Approval | None

    @property
    def each_time(self) -> bool:
        return self.procedure is not None and self.procedure.each_time


def yes_table(desk: Desk, school: School) -> dict[str, Any]:
    """`yes_rows` of everything that is written down or was approved, `rules` for gifts, `past` approvals.

    `asking_waits`: until a yes to asking is recorded, no shop may be asked for this school.
    """
    procedures = {one.what_for: one for one in school.procedures.all()}
    approvals = list(school.approvals.all())
    rows = [
        yes_row(
            desk.day, what_for, str(label), procedures.get(what_for), [a for a in approvals if a.what_for == what_for]
        )
        for what_for, label in ApprovalFor.choices
    ]
    shown = [row for row in rows if row.procedure is not None or row.approval is not None]
    listed = {row.approval.pk for row in shown if row.approval is not None}
    return {
        "yes_rows": shown,
        "rules": school.acceptance_rules.all(),
        "past_approvals": [one for one in approvals if one.pk not in listed],
        "asking_waits": school.asking_needs_approval
        and not any(one.what_for == ApprovalFor.ASKING and one.counts_on(desk.day) for one in approvals),
        "some_hold": any(one.lapsed_on is None and (one.until is None or one.until >= desk.day) for one in approvals),
    }


def yes_row(day: date, what_for: str, label: str, procedure: Procedure | None, approvals: list[Approval]) -> YesRow:
    """`approvals` are those to the one thing, the latest first."""
    counting = [one for one in approvals if one.counts_on(day)]
    approval = next(iter([*counting, *approvals]), None)
    each_time = procedure is not None and procedure.each_time
    counts = bool(counting) and not each_time
    return YesRow(what_for, label, procedure, approval, counts, None if each_time else open_of(approvals))


def open_of(approvals: list[Approval]) -> Approval | None:
    """The latest approval that another will follow: it ends, or lapsed."""
    return next((one for one in approvals if not one.renewed and (one.until or one.lapsed_on)), None)


def followed(desk: Desk, school: School, what_for: str) -> Approval | None:
    """The approval that a new yes to the same thing follows."""
    procedure = needed(desk, school, what_for)
    if procedure is not None and procedure.each_time:
        return None
    return open_of(list(desk.approvals.filter(school=school, what_for=what_for)))


def first_words(desk: Desk, school: School, what_for: str, before: Approval | None) -> dict[str, Any]:
    """What the form of a new approval begins with: whoever says yes there, today, to the end of the school year."""
    procedure = needed(desk, school, what_for)
    by = school.principal
    if before is not None and before.lapsed_on is None:
        by = before.by
    elif procedure is not None and "principal" not in procedure.who.lower():
        by = procedure.who
    each_time = procedure is not None and procedure.each_time
    return {
        "what_for": what_for,
        "by": by,
        "on": desk.day,
        "until": None if each_time else year_end(school, desk.day, before),
    }


def year_end(school: School, day: date, before: Approval | None = None) -> date | None:
    """The last day of the school year around the day, else of the next one; None where the calendar has neither.

    Where the approval that is renewed reaches to that end already, it is the year after.
    """
    ahead = school.school_days.filter(kind=ClosureKind.YEAR, last__gte=day).order_by("last", "pk")
    ends = list(dict.fromkeys(ahead.values_list("last", flat=True)))
    if before is not None and before.lapsed_on is None and before.until is not None:
        ends = [end for end in ends if end > before.until] or ends
    return ends[0] if ends else None
