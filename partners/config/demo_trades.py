"""The trades of the demo book: agreed, planned, and counted as far as the story goes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, Protocol

from partners.exchanges.actions import Given, PlainItems, agree, sign_memo, standing_approval
from partners.exchanges.count_actions import deliver_part, tally
from partners.exchanges.models import Trade
from partners.exchanges.plan_actions import choose_classes
from partners.program.desk import Desk


class Days(Protocol):
    """What the loader of the demo book knows of days and of rows by their names."""

    keyed: dict[str, Any]

    def day(self, ahead: int) -> date: ...
    def school_day(self, ahead: int) -> date: ...


def carry_out(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    """One trade with all that happened to it until now."""
    values = dict(told)
    school = book.keyed[values.pop("school")]
    given = [Given(**dated(book, one)) for one in values.pop("gives")]
    plain = PlainItems(**dated(book, values.pop("plain")))
    later = {name: values.pop(name, None) for name in ("approved", "signed_ago", "plain_came_ago", "plain_came")}
    classes, counts = values.pop("classes", []), values.pop("counts", [])
    values |= {"partner": book.keyed[values["partner"]], "project": book.keyed.get(values.get("project", ""))}
    approval = standing_approval(desk, school, desk.day) if later["approved"] else None
    trade = agree(desk=desk, school=school, plain=plain, gives=given, approval=approval, **dated(book, values))
    if later["signed_ago"]:
        day = book.school_day(-later["signed_ago"])
        sign_memo(desk=replace(desk, day=day), trade=trade, day=day)
    if classes:
        rows = [(one, 0) for one in school.classes.filter(label__in=classes)]
        choose_classes(desk=desk, trade=trade, classes=rows)
    if later["plain_came"] and trade.plain is not None:
        day = book.school_day(-later["plain_came_ago"])
        deliver_part(desk=replace(desk, day=day), promise=trade.plain, day=day, quantity=later["plain_came"])
    for count in counts:
        tell(book, desk, trade, dict(count))


def tell(book: Days, desk: Desk, trade: Trade, count: dict[str, Any]) -> None:
    day = book.school_day(-count.pop("ago"))
    row = trade.classes.select_related("school_class", "trade").get(school_class__label=count.pop("class"))
    tally(desk=replace(desk, day=day), trade_class=row, day=day, **count)


def dated(book: Days, told: dict[str, Any]) -> dict[str, Any]:
    """`due_in` and the like are days from now; by the columns' names."""
    values = {name.removesuffix("_in"): book.school_day(days) for name, days in told.items() if name.endswith("_in")}
    return {name: value for name, value in told.items() if not name.endswith("_in")} | values
