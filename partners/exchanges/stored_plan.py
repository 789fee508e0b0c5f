"""What the row of each class in a trade keeps of the plan: its share, its lessons, the day to begin by.

A share is worked out from enrolment until work begins; from then on it stands as it was decided, until something is
counted, somebody plans anew or sets it by hand. Lessons and the day to begin by follow from the share and the calendar
at any time, whatever day it is: they are counted from the day on which plain items are promised, not from today.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from partners.exchanges.lessons import lessons_for
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plan import Plan, PlannedClass, Wish
from partners.exchanges.planning import calendar_of, class_rows, plan_of, planned_class, wish_of
from partners.exchanges.shares import begun, share_out
from partners.ground.changes import Change
from partners.program.desk import Desk
from partners.program.models import Program
from partners.promises.models import Part
from partners.school.class_meetings import class_meetings
from partners.school.clock import calendars

LARGEST = 32_767

Stored = tuple[TradeClass, dict[str, Any]]


def plan_again(book: Change, desk: Desk, trade: Trade, *, counting: bool = False, keep: bool = True) -> Plan:
    """Store the share, the lessons and the start of every class as the plan says them now. Raises PlainError.

    Classes `keep` what they may have made uncounted, unless somebody plans anew.
    """
    made = plan_of(desk.program, trade, desk.day, counting=counting, keep=keep)
    book.update_each(differing_rows(desk.program, trade, {row.key: row.share for row in made.rows}))
    return made


def differing_rows(
    program: Program, trade: Trade | None = None, shares: Mapping[int, int] | None = None
) -> list[Stored]:
    """The classes whose rows do not hold what they should, each with the right values.

    Of one trade, or else of all that are neither fulfilled nor called off, in the same few queries. `shares` are newly
    decided ones by the row's id. Nothing of it depends on today. Raises PlainError where a calendar has no school day.
    """
    made = program.promises.filter(part=Part.MAKE).select_related("trade")
    made = made.filter(settled_on=None, trade__called_off_on=None) if trade is None else made.filter(trade=trade)
    promised: dict[int, Any] = {promise.trade_id: promise for promise in made if promise.trade_id is not None}
    by_trade: dict[int, list[TradeClass]] = defaultdict(list)
    for row in class_rows(program, promised):
        by_trade[row.trade_id].append(row)
    known = calendars(program) if by_trade else {}
    plain = dict(program.promises.filter(part=Part.PLAIN, trade__in=by_trade).values_list("trade_id", "due"))
    wishes = {pk: wish_of(promised[pk], calendar_of(known, promised[pk].trade, rows)) for pk, rows in by_trade.items()}
    firsts = {pk: max(promised[pk].trade.agreed_on, plain.get(pk) or date.min) for pk in by_trade}
    every = {row.school_class_id: row.school_class for rows in by_trade.values() for row in rows}
    met: Mapping[int, Sequence[date]] = {}
    if every:
        earliest, latest = min(firsts.values()), max(wish.work_until for wish in wishes.values())
        met = class_meetings(program, list(every.values()), earliest, max(earliest, latest))
    found: list[Stored] = []
    for pk, rows in by_trade.items():
        days = [_between(met[row.school_class_id], firsts[pk], wishes[pk].work_until) for row in rows]
        found += _stored(promised[pk].trade, wishes[pk], rows, days, shares)
    return [(row, values) for row, values in found if any(getattr(row, name) != now for name, now in values.items())]


def _stored(
    trade: Trade,
    wish: Wish,
    rows: Sequence[TradeClass],
    met: Sequence[Sequence[date]],
    decided: Mapping[int, int] | None,
) -> Iterable[Stored]:
    classes = [planned_class(trade, row, days, 0) for row, days in zip(rows, met, strict=True)]
    shares: Sequence[int] = [row.share for row in rows]
    if decided is not None:
        shares = [decided[row.pk] for row in rows]
    elif not begun(classes):
        shares = share_out(wish, classes).shares
    for row, one, share in zip(rows, classes, shares, strict=True):
        yield row, {"share": share, **lessons_and_start(trade, wish, one, share)}


def lessons_and_start(trade: Trade, wish: Wish, one: PlannedClass, share: int) -> dict[str, Any]:
    """How many lessons a share takes, and the last meeting on which the class can begin; the first where it is late."""
    needed = lessons_for(share, one.taking_part, one.lesson_minutes, wish.minutes_per_item) or 0
    met = one.met_by(wish.work_until)
    used = min(needed, met if trade.lesson_limit is None else min(met, trade.lesson_limit))
    return {"lessons": min(needed, LARGEST), "start_on": one.meetings[met - used] if used else None}


def _between(days: Sequence[date], first: date, last: date) -> Sequence[date]:
    return days[bisect_left(days, first) : bisect_right(days, last)]
