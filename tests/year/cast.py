"""A year of Alder Falls for tests, written by the verbs: June asks, shops give, both sides promise, helpers come."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from partners.asking.actions import log_visit
from partners.asking.said import Said
from partners.directory.models import Partner
from partners.exchanges.models import Trade
from partners.gifts.actions import Line, receive
from partners.gifts.thanks_actions import thanks_said
from partners.helpers.session_actions import all_came, ask_helpers, reply
from partners.program.desk import Desk
from partners.promises.actions import deliver, never_came, promise
from partners.school.actions import add_class
from tests import people
from tests.exchanges.trades import make_trade
from tests.helpers.cast import helper, plan

LAST_MAY, SEPTEMBER, OCTOBER = date(2026, 5, 12), date(2026, 9, 15), people.TUESDAY


def on(desk: Desk, day: date) -> Desk:
    """The same person at their desk on another day."""
    return replace(desk, day=day)


def ask(desk: Desk, partner: Partner, happened: str, day: date = SEPTEMBER) -> None:
    log_visit(desk=on(desk, day), said=Said(where=partner, happened=happened, day=day, what="terracotta pots"))


def gift(desk: Desk, partner: Partner | None, day: date, form: str = "goods", **values: Any) -> Any:
    source = "partner" if partner else "families"
    lines = [] if form == "money" else [Line(description="mat board offcuts", quantity=40)]
    return receive(desk=on(desk, day), source=source, partner=partner, day=day, form=form, lines=lines, **values)


def a_year(desk: Desk) -> dict[str, Any]:
    """Two gave last May; one of them again, and a third for the first time. Counted by hand in the tests."""
    garden, bakery, frames = (
        people.make_partner(desk.program, name, business_kind=kind)
        for name, kind in (
            ("Riverbend Garden Center", "garden"),
            ("Bluebird Bakery", "coffee_shop"),
            ("Marigold Framing", "frame_shop"),
        )
    )
    school = people.make_school(desk.program)
    for label, students in (("3-Elm", 24), ("K-Oak", 18)):
        add_class(desk=desk, school=school, label=label, grade=3, students=students)
    for giver in (garden, bakery):
        gift(desk, giver, LAST_MAY)
    thanked = gift(desk, garden, SEPTEMBER)
    thanks_said(desk=desk, thanks=thanked.thanks, day=date(2026, 9, 19))
    gift(desk, frames, SEPTEMBER, "money", amount_cents=25_000, money_kind="check")
    gift(desk, None, OCTOBER)
    for answer in ("yes", "some", "no", "yes", "no"):
        ask(desk, garden, answer)
    ask(desk, bakery, "no")
    return {"garden": garden, "bakery": bakery, "frames": frames, "school": school}


def promises(desk: Desk, partner: Partner) -> None:
    """Of theirs one came, one is past its day and one never came; ours is still to come."""
    words: dict[str, Any] = {"desk": desk, "partner": partner, "made_on": SEPTEMBER}
    came = promise(**words, side="them", what="paper ends", quantity=30, due=date(2026, 9, 30))
    deliver(desk=desk, promise=came, day=SEPTEMBER, quantity=30)
    promise(**words, side="them", what="card tubes", quantity=50, due=date(2026, 10, 1))
    lost = promise(**words, side="them", what="old frames", due=date(2026, 10, 2))
    never_came(desk=desk, promise=lost, day=OCTOBER)
    promise(**words, side="us", what="a window display", due=date(2026, 11, 3))


def trade(desk: Desk, partner: Partner) -> Trade:
    return make_trade(desk, partner=partner, plain=None)


def helpers_came(desk: Desk) -> None:
    """Two helpers for two hours."""
    session = plan(desk, day=OCTOBER)
    people_ = [helper(desk, name) for name in ("Rosa Delgado", "Ilse Brandt")]
    for turn in ask_helpers(desk=desk, session=session, helpers=people_):
        reply(desk=desk, turn=turn, answer="yes", day=OCTOBER)
    all_came(desk=desk, session=session)
