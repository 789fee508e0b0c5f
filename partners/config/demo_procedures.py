"""Who must say yes to what in the demo book, and what was approved besides."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

from partners.agenda.actions import begin_year
from partners.config.demo_season import school_year_around
from partners.config.demo_trades import Days
from partners.program.desk import Desk
from partners.school.approval_actions import add_approval, add_procedure, edit_approval, lapse_approvals


def tell_procedures(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    first, last = school_year_around(desk.day)
    # Trades were agreed on by now: their days are counted over the calendar, too.
    begin_year(desk=desk, schools=list(desk.schools), first=first, last=last, day_one=False)
    for values in told["written_down"]:
        add_procedure(desk=desk, school=book.keyed[values["school"]], **without(values, "school"))
    for values in told["approved"]:
        approve(book, desk, values)


def approve(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    school, day = book.keyed[told["school"]], book.day(-told["ago"])
    until = book.day(told["until_in"]) if "until_in" in told else None
    given = without(told, "school", "ago", "until_in", "followed", "lapsed_ago")
    row = add_approval(desk=replace(desk, day=day), school=school, on=day, until=until, **given)
    if told.get("followed"):
        edit_approval(desk=replace(desk, day=day + timedelta(days=300)), approval=row, renewed=True)
    if "lapsed_ago" in told:
        lapsed = book.school_day(-told["lapsed_ago"])
        lapse_approvals(desk=replace(desk, day=lapsed), school=school, approvals=[row], day=lapsed)


def without(values: dict[str, Any], *names: str) -> dict[str, Any]:
    return {name: value for name, value in values.items() if name not in names}
