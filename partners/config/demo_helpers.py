"""The helpers of the demo book: a stack of slips, clearances, a session that was and one to come, kits at home."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

from partners.config.demo_cards import tell_cards
from partners.config.demo_trades import Days
from partners.helpers import actions, kit_actions, session_actions
from partners.helpers.session_models import Reply
from partners.program.desk import Desk
from partners.school.clock import clock


def tell_helpers(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    stack(book, desk, told["stack"])
    for one in told["cleared"]:
        until = book.day(one["until_in"]) if "until_in" in one else None
        actions.clear(desk=desk, helper=book.keyed[one["who"]], cleared=True, until=until, by=one["by"])
    tell_cards(book, desk, told)
    for one in told["sessions"]:
        session(book, desk, dict(one))
    for one in told["kits"]:
        kit(book, desk, dict(one))


def stack(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    typed = replace(desk, day=book.school_day(-told["ago"]))
    batch = actions.open_batch(desk=typed, school=book.keyed[told["school"]])
    for slip in told["slips"]:
        values = {name: value for name, value in slip.items() if name not in ("key", "called_ago")}
        helper = book.keyed[slip["key"]] = actions.type_slip(desk=typed, batch=batch, **values)
        if "called_ago" in slip:
            day = book.school_day(-slip["called_ago"])
            actions.called(desk=replace(desk, day=day), helper=helper, day=day)


def session(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    """One that was is planned two weeks before its day, as one that comes was two weeks ago."""
    day = held_on(book, desk, told)
    planned = replace(desk, day=min(desk.day, day) - timedelta(days=14))
    hours = {name: time.fromisoformat(told.pop(name)) for name in ("starts", "ends")}
    asked, came, thanked = (told.pop(name, {}) for name in ("asked", "came", "thanked"))
    told |= {name: book.keyed[told[name]] for name in ("school", "card", "show") if name in told}
    row = session_actions.add_session(desk=planned, day=day, **hours, **told)
    helpers = [book.keyed[key] for key in asked]
    turns = dict(zip(asked, session_actions.ask_helpers(desk=planned, session=row, helpers=helpers), strict=True))
    for key, answer in asked.items():
        if answer != Reply.SILENT:
            session_actions.reply(desk=planned, turn=turns[key], answer=answer, day=planned.day)
    if day < desk.day:
        on_the_day = replace(desk, day=day)
        for key, minutes in came.items():
            session_actions.came(desk=on_the_day, turn=turns[key], minutes=minutes)
        row.refresh_from_db()
        session_actions.count(desk=on_the_day, session=row, day=day)
        session_actions.thank(desk=on_the_day, session=row, day=day, turns=[turns[key] for key in thanked])


def held_on(book: Days, desk: Desk, told: dict[str, Any]) -> date:
    if "ago" in told:
        return book.school_day(-told.pop("ago"))
    return clock(desk.program).on_or_after(book.day(told.pop("in")))


def kit(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    helper, out_on = book.keyed[told.pop("who")], book.day(-told.pop("ago"))
    back_ago, minutes = told.pop("back_ago", None), told.pop("minutes", None)
    values = {"due": book.school_day(told.pop("due_in")), "school": book.keyed[told.pop("school")], **told}
    row = kit_actions.take_home(desk=replace(desk, day=out_on), helper=helper, out_on=out_on, **values)
    if back_ago is not None:
        day = book.day(-back_ago)
        kit_actions.kit_back(desk=replace(desk, day=day), kit=row, day=day, minutes=minutes)
