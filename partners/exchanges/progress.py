"""What the page of counting shows, and what each of its buttons counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from partners.exchanges.lesson_count import whole_lesson
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.trade_page import made, stock
from partners.program.desk import Desk

ONE, FIVE, LESSON, SPOILED = TAPS = ("1", "5", "lesson", "spoiled")
LATEST = 8


@dataclass(frozen=True)
class ClassShown:
    """A class with what one whole lesson would add."""

    row: TradeClass
    lesson: int


def lesson_of(row: TradeClass) -> int:
    one = row.school_class
    children = max(0, one.students - row.not_taking_part)
    return whole_lesson(row.left, children, one.minutes, row.trade.minutes_per_item)


def counted(row: TradeClass, tap: str) -> int:
    """How many a tap counts; 0 for one that says nothing."""
    if tap == LESSON:
        return lesson_of(row)
    return {ONE: 1, FIVE: 5, SPOILED: 1}.get(tap, 0)


def progress(desk: Desk, trade: Trade) -> dict[str, Any]:
    """The context of exchanges/trade_progress.html. Classes of the person's own schools only."""
    rows = trade.classes.select_related("school_class__school", "trade")
    if desk.school_ids:
        rows = rows.filter(school_class__school__in=desk.school_ids)
    shown = [ClassShown(row, lesson_of(row)) for row in rows]
    tallies = desk.trade_tallies.filter(trade_class__in=[one.row for one in shown])
    latest = tallies.select_related("trade_class__school_class").order_by("-pk")[:LATEST]
    facts = {"trade": trade, "classes": shown, "made": made(trade), "stock": stock(trade), "latest": latest}
    return facts | {"schools": len({one.row.school_class.school_id for one in shown})}
