"""The free days of the demo book: one to confirm, one today, one that nobody said anything of, and what was got."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

from partners.config.demo_trades import Days
from partners.funding import occasion_actions as actions
from partners.funding.recurrence import Every, next_time, rhythm_on, rule_of
from partners.program.desk import Desk


def tell_free_days(book: Days, desk: Desk, told: list[dict[str, Any]]) -> None:
    for one in told:
        free_day(book, desk, dict(one))


def free_day(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    """Entered so many days ago, with earlier times; what it was told of its next time comes last."""
    entered = replace(desk, day=book.day(-told.pop("entered_ago", 0)))
    first = book.day(told.pop("in"))
    every = Every(told.pop("every"))
    times, answer, confirmed = told.pop("times", []), told.pop("told", None), told.pop("confirmed_ago", None)
    hours = {name: time.fromisoformat(told.pop(name)) for name in ("opens_at", "closes_at") if name in told}
    if "partner" in told:
        told["partner"] = book.keyed[told["partner"]]
    rule = rule_of(rhythm_on(every, first))
    row = actions.add_occasion(desk=entered, rule=rule, first_on=first, **hours, **told)
    for one in times:
        held_on = earlier(every, rule, first, one["before"])
        actions.tell(desk=entered, occasion=row, held_on=held_on, went=True, day=entered.day, got=one["got"])
    if confirmed is not None:
        day = book.day(-confirmed)
        actions.confirm(desk=replace(desk, day=day), occasion=row, day=day)
    if answer is not None:
        then = replace(desk, day=book.day(-answer["ago"]))
        actions.tell(desk=then, occasion=row, held_on=first, went=True, day=then.day, got=answer["got"])


def earlier(every: Every, rule: str, first: date, before: int) -> date:
    """So many times before the first one that the book knows."""
    if every == Every.TWO_WEEKS:
        return first - timedelta(weeks=2 * before)
    found = next_time(rule, date(first.year - before, 1, 1))
    assert found is not None  # noqa: S101 -- there is one every year
    return found
