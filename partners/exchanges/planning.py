"""The plan of a trade, from the record: its classes with their real meetings, its days, and what is done already."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from django.db.models import Max

from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plan import Plan, PlannedClass, Wish, last_day_for_work, plan
from partners.program.models import Program
from partners.promises.models import Part, Promise
from partners.school.calendar import SchoolCalendar, together
from partners.school.class_meetings import class_meetings
from partners.school.clock import calendars
from partners.school.models import ClosureKind, SchoolClass

# How far behind the promised day a later one is looked for.
LOOK_AHEAD = timedelta(days=180)


@dataclass(frozen=True)
class Gathered:
    """What a plan is made from. `first` is the first day on which classes can work on it."""

    trade: Trade
    rows: Sequence[TradeClass]
    wish: Wish
    classes: Sequence[PlannedClass]
    calendar: SchoolCalendar
    first: date


def plan_of(program: Program, trade: Trade, day: date, *, counting: bool = False, keep: bool = False) -> Plan:
    """The plan as it stands on `day`: what is done is taken off, and only meetings that are still to come count.

    Raises PlainError where what was agreed, or a calendar, does not allow any.
    """
    gathered = gather(program, trade, day, counting=counting)
    return plan(gathered.wish, gathered.classes, keep=keep)


def gather(program: Program, trade: Trade, day: date, *, counting: bool = False) -> Gathered:
    """In the same number of queries for any number of classes. Raises PlainError.

    A lesson in which something was counted today is over, unless somebody is `counting` in it just now.
    """
    rows = class_rows(program, [trade.pk])
    promises = {promise.part: promise for promise in program.promises.filter(trade=trade).select_related("trade")}
    calendar = calendar_of(calendars(program), trade, rows)
    wish = wish_of(promises[Part.MAKE], calendar)
    there = _plain_there(program, promises.get(Part.PLAIN)) or trade.agreed_on
    first, since = max(day, there), max(trade.agreed_on, there)
    met = class_meetings(program, school_classes(rows), min(since, first), max(wish.work_until, first) + LOOK_AHEAD)
    worked = days_worked(program, school_classes(rows), wish.due)
    if counting:
        worked = defaultdict(set, {pk: days - {day} for pk, days in worked.items()})
    counted = last_counts(program, rows, before=day if counting else None)
    classes = []
    for row in rows:
        days, own = met[row.school_class_id], worked[row.school_class_id]
        ahead = [one for one in days if one >= first and (one != day or day not in own)]
        over = [one for one in days if since <= one < day or one == day > wish.work_until]
        over = [one for one in over if one > counted.get(row.pk, date.min) and one not in own]
        planned = planned_class(trade, row, ahead, len(own))
        classes.append(replace(planned, uncounted=len(over) if days and row.school_class.minutes else None))
    return Gathered(trade, rows, wish, classes, calendar, first)


def wish_of(make: Promise, calendar: SchoolCalendar) -> Wish:
    """What was promised, with the last day on which a lesson still counts. Raises PlainError."""
    trade: Any = make.trade
    return Wish(
        at_least=make.quantity or 0,
        at_most=make.at_most,
        due=make.due,
        work_until=last_day_for_work(calendar, make.due, trade.finishing_days),
        minutes_per_item=trade.minutes_per_item,
        minimum=trade.minimum,
    )


def days_worked(program: Program, classes: Collection[SchoolClass], due: date) -> dict[int, set[date]]:
    """On which days of the school year of `due` each class worked for any trade, by the class's id."""
    counted = program.trade_tallies.filter(
        trade_class__school_class__in=classes, day__gte=school_year_from(program, due)
    )
    found: dict[int, set[date]] = defaultdict(set)
    for class_id, day in counted.values_list("trade_class__school_class_id", "day"):
        found[class_id].add(day)
    return found


def last_counts(program: Program, rows: Collection[TradeClass], before: date | None) -> dict[int, date]:
    """The last day on which something was counted of each class for its trade, by the row's id."""
    counted = program.trade_tallies.filter(trade_class__in=rows)
    if before is not None:
        counted = counted.filter(day__lt=before)
    return dict(counted.order_by().values_list("trade_class_id").annotate(last=Max("day")))


def school_year_from(program: Program, day: date) -> date:
    """The first day of the school year around `day`: as entered, else the first of the month the fiscal year begins."""
    years = program.school_days.filter(kind=ClosureKind.YEAR, first__lte=day, last__gte=day)
    entered = years.order_by("-first").values_list("first", flat=True).first()
    if entered is not None:
        return entered
    month = program.fiscal_year_starts
    return date(day.year if day.month >= month else day.year - 1, month, 1)


def planned_class(trade: Trade, row: TradeClass, met: Sequence[date], used: int) -> PlannedClass:
    school_class = row.school_class
    return PlannedClass(
        key=row.pk,
        label=school_class.label,
        school=school_class.school.name,
        students=school_class.students,
        not_taking_part=row.not_taking_part,
        lesson_minutes=school_class.minutes or 0,
        meetings=met,
        lessons_left=None if trade.lesson_limit is None else max(0, trade.lesson_limit - used),
        fixed=row.share if row.by_hand else None,
        done=row.done,
        spoiled=row.spoiled,
        share=row.share,
    )


def class_rows(program: Program, trades: Collection[int]) -> list[TradeClass]:
    """The classes of these trades, school by school. Each school is made once and not for every class."""
    rows = program.trade_classes.filter(trade__in=trades).select_related("school_class")
    ordered = list(rows.order_by("school_class__school__name", "school_class__grade", "school_class__label", "pk"))
    schools = program.schools.in_bulk({row.school_class.school_id for row in ordered}) if ordered else {}
    for row in ordered:
        row.school_class.school = schools[row.school_class.school_id]
    return ordered


def school_classes(rows: Iterable[TradeClass]) -> list[SchoolClass]:
    return [row.school_class for row in rows]


def calendar_of(known: Mapping[int, SchoolCalendar], trade: Trade, rows: Sequence[TradeClass]) -> SchoolCalendar:
    """On which drying days are counted: the trade's own school, else those of its classes, else all together."""
    if trade.school_id is not None and trade.school_id in known:
        return known[trade.school_id]
    schools = {row.school_class.school_id for row in rows} or set(known)
    return together([known[pk] for pk in sorted(schools)])


def _plain_there(program: Program, plain: Promise | None) -> date | None:
    """Since when there are plain items, or by when they are promised."""
    if plain is None:
        return None
    came = program.deliveries.filter(promise=plain).order_by("day").values_list("day", flat=True).first()
    return came or plain.due
