"""The grants of the demo book: being written, without an answer, being spent, refused, and one to report on."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from partners.config.demo_trades import Days
from partners.funding import grant_actions as actions
from partners.funding.answer_actions import begin_answers, take_over
from partners.funding.answer_words import first_answers, for_grant
from partners.funding.buying_actions import Bought, record_receipt, write_slip
from partners.funding.grant_models import Grant
from partners.gifts.thanks_actions import thanks_said
from partners.program.desk import Desk

STEPS = ("asked", "awarded", "accepted", "refused", "changed", "bought", "thanked", "claimed")


def tell_grants(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    begin_answers(desk=desk, ready=first_answers(desk))
    for key, one in told.items():
        book.keyed[key] = grant(book, desk, dict(one))


def grant(book: Days, desk: Desk, told: dict[str, Any]) -> Grant:
    """One grant as it was written, and every step that it has behind it."""
    steps = {name: told.pop(name) for name in STEPS if name in told}
    answers = told.pop("answers", False)
    partner = told.pop("partner")
    values = dated(book, told)
    lines = [actions.LineEdit(**{**line, "need": book.keyed.get(line.get("need"))}) for line in values.pop("lines", [])]
    asked = values.get("asked_cents") or sum(line.planned_cents + line.shipping_cents for line in lines)
    row = actions.write_grant(
        desk=replace(desk, day=book.day(-told["ago"])),
        partner=book.keyed.get(partner, partner),
        lines=lines,
        **{**values, "asked_cents": asked},
    )
    if answers:
        take_over(desk=desk, grant=row, ready=[for_grant(row, one) for one in first_answers(desk)])
    for name in STEPS:
        if name in steps:
            step(book, desk, row, name, dict(steps[name]))
    return row


def step(book: Days, desk: Desk, row: Grant, name: str, told: dict[str, Any]) -> None:
    row.refresh_from_db()
    day = book.day(-told.pop("ago"))
    then = replace(desk, day=day)
    values = dated(book, told)
    if name == "asked":
        answer_by = values.get("answer_by")
        actions.ask_for(desk=then, grant=row, asked_on=day, asked_cents=row.asked_cents or 0, answer_by=answer_by)
    elif name == "awarded":
        actions.award(desk=then, grant=row, answered_on=day, **values)
    elif name == "accepted":
        actions.accept_award(desk=then, grant=row, day=day)
    elif name == "refused":
        actions.refuse(desk=then, grant=row, answered_on=day, **values)
    elif name == "changed":
        line, to_line = row.lines.get(position=values.pop("line")), row.lines.get(position=values.pop("to_line"))
        actions.agree_change(desk=then, grant=row, line=line, to_line=to_line, agreed_on=day, **values)
    elif name == "bought":
        buy(then, row, values)
    elif name == "thanked":
        thanks_said(desk=then, thanks=row.thanks.get(), day=day, how="by letter")
    else:
        actions.claim(desk=then, grant=row, day=day)


def buy(desk: Desk, row: Grant, told: dict[str, Any]) -> None:
    """One receipt, each line charged to the line of the grant that it names by its place."""
    own = {"school": row.school, "project": row.project, "grant": row, "payer": "order", "slip_on": desk.day}
    purchase = write_slip(desk=desk, vendor=told["shop"], what=told["what"], **own)
    charged = {line.position: line for line in row.lines.all()}
    lines = [Bought(**{**line, "grant_line": charged[line["grant_line"]]}) for line in told["lines"]]
    record_receipt(desk=desk, purchase=purchase, lines=lines, bought_on=desk.day, receipt_number=told["receipt_number"])


def dated(book: Days, told: dict[str, Any]) -> dict[str, Any]:
    """The values with their days: "spend_by_in": 24 is a day ahead, "apply_by_ago" one behind; rows by their key."""
    values: dict[str, Any] = {}
    for name, value in told.items():
        if name.endswith("_in"):
            values[name.removesuffix("_in")] = book.day(value)
        elif name.endswith("_ago"):
            values[name.removesuffix("_ago")] = book.day(-value)
        elif name in ("school", "project"):
            values[name] = book.keyed[value]
        elif name != "ago":
            values[name] = value
    return values
