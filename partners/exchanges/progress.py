"""What the page of counting shows, and what each of its buttons counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from partners.exchanges.lessons import items_in
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.trade_page import made, stock
from partners.program.desk import Desk

ONE, FIVE, LESSON, SPOILED = "1", "5", "lesson", "spoiled"
NUMBER, NUMBER_SPOILED = "number", "number-spoiled"
SPOILS = (SPOILED, NUMBER_SPOILED)
MOST_TYPED = 9999
LATEST = 8


@dataclass(frozen=True)
class ClassShown:
    """A class with what one whole lesson would add."""

    row: TradeClass
    lesson: int


def lesson_of(row: TradeClass) -> int:
    """What the class finishes in one lesson when everybody is done; never more than it still has to make.

    An item that takes several lessons is finished in the last of them, so such a lesson gives one for each child. Where
    the minutes of a lesson are not known it is one as well.
    """
    children = max(0, row.school_class.students - row.not_taking_part)
    most = items_in(1, children, row.school_class.minutes or 0, row.trade.minutes_per_item)
    return min(row.left, max(children, most))


def counted(row: TradeClass, tap: str, typed: str = "") -> int:
    """How many a tap counts, or the number typed beside it; 0 for one that says nothing."""
    if tap == LESSON:
        return lesson_of(row)
    if tap in (NUMBER, NUMBER_SPOILED):
        return int(typed) if typed.isascii() and typed.isdecimal() and int(typed) <= MOST_TYPED else 0
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
    schools = len({one.row.school_class.school_id for one in shown})
    return facts | {"schools": schools, "make": trade.make, "unplanned": unplanned(trade)}


def unplanned(trade: Trade) -> int:
    """What is promised beyond all that the classes made and still have a lesson for."""
    if trade.make.settled_on:
        return 0
    return max(0, (trade.make.quantity or 0) - sum(max(row.share, row.done) for row in trade.classes.all()))
