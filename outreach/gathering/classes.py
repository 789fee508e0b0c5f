"""The facts of the sheets for classes: each class's share, and the lessons in which it makes it."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date
from typing import Any

from outreach.documents.class_plan import ClassPart, Facts
from outreach.gathering.school import grades
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plain_items import plain_needed
from partners.program.desk import Desk
from partners.school.class_meetings import class_meetings


def gather(desk: Desk, trade: Trade, words: dict[str, Any] | None = None) -> Facts:
    """Classes with a share, as the plan stands in the record; their lessons follow from where each starts."""
    made = trade.make
    found = trade.classes.select_related("school_class__school").exclude(share=0, done=0)
    rows = list(found.order_by("school_class__school__name", "school_class__grade", "school_class__label", "pk"))
    first = min((row.start_on for row in rows if row.start_on), default=made.due)
    meetings = class_meetings(desk.program, [row.school_class for row in rows], first, made.due)
    return Facts(
        language=desk.program.language,
        paper=desk.program.paper,
        day=desk.day,
        what=trade.what,
        partner=trade.partner.name,
        due=made.due,
        classes=tuple(part(desk, trade, row, meetings[row.school_class_id]) for row in rows),
        size=trade.size,
        minutes=trade.minutes_per_item,
        materials=trade.materials,
        names_on_work=trade.names_on_work,
        teacher=desk.signs.teacher,
    )


def part(desk: Desk, trade: Trade, row: TradeClass, meetings: list[date]) -> ClassPart:
    one = row.school_class
    return ClassPart(
        label=one.label,
        school=one.school.name,
        share=row.share,
        children=max(0, one.students - row.not_taking_part),
        grade=grades(one.grade, one.grade, desk.program.language),
        lessons=lessons(desk, row, meetings),
        fits=on_time(desk, row),
        done=row.done,
        spoiled=row.spoiled,
        plain=plain_needed(row.left, trade.spare_percent if trade.spares_included else 0) if trade.plain else 0,
    )


def on_time(desk: Desk, row: TradeClass) -> bool:
    """Whether the class is done, or has begun or still can begin so that all of it fits."""
    fits = row.start_on is not None and (row.started_on is not None or row.start_on >= desk.day)
    return fits or not row.left


def lessons(desk: Desk, row: TradeClass, meetings: list[date]) -> tuple[date, ...]:
    """The meetings from the start on, as many as are needed; none that went by without a start."""
    if row.start_on is None:
        return ()
    at = bisect_left(meetings, row.start_on if row.started_on else max(row.start_on, desk.day))
    return tuple(meetings[at : at + row.lessons])
