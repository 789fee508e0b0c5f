"""A small book with one open row for every source of due lines, written by the verbs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

from partners.exchanges.actions import Given, PlainItems, agree, approve, sign_memo
from partners.exchanges.count_actions import close_part
from partners.exchanges.plan_actions import choose_classes
from partners.gifts.actions import Line, receive
from partners.gifts.thanks_actions import owe_thanks
from partners.ground.changes import change
from partners.ground.due import DueSource
from partners.helpers.actions import add_helper, clear
from partners.helpers.kit_actions import take_home
from partners.helpers.session_actions import add_session, ask_helpers, came, count, reply
from partners.program.desk import Desk
from partners.promises.actions import promise
from partners.promises.models import Part, Side
from partners.school.actions import add_class
from partners.school.approval_actions import add_approval, add_rule
from partners.school.approval_models import Approval
from partners.school.clock import clock
from partners.visits.actions import move_look, plan_follow_up, record_ask, record_visit
from tests import people
from tests.agenda import more_books

DAY = people.TUESDAY


def follow_up(desk: Desk, partner: Any, day: date) -> Any:
    ask = record_ask(desk=desk, partner=partner, what="clay", asked_on=day - timedelta(days=7))
    return plan_follow_up(desk=desk, partner=partner, base=day - timedelta(days=7), ask=ask)


def look_after(desk: Desk, partner: Any, day: date) -> Any:
    ask = record_ask(desk=desk, partner=partner, what="yarn", asked_on=day - timedelta(days=30))
    return move_look(desk=desk, ask=ask, due=day)


def theirs(desk: Desk, partner: Any, day: date) -> Any:
    said: dict[str, Any] = {"what": "pots", "quantity": 60, "unit": "pots", "made_on": day - timedelta(days=9)}
    return promise(desk=desk, partner=partner, side="them", due=day, **said)


def ours(desk: Desk, partner: Any, day: date) -> Any:
    return promise(desk=desk, partner=partner, side="us", what="tags", due=day, made_on=day - timedelta(days=9))


def thanks(desk: Desk, partner: Any, day: date) -> Any:
    return owe_thanks(desk=desk, partner=partner, reason="promise", base=day - timedelta(days=7))


def _gift(desk: Desk, partner: Any, **values: Any) -> Any:
    return receive(desk=desk, source="partner", partner=partner, **values)


def to_accept(desk: Desk, partner: Any, day: date) -> Any:
    school = desk.schools.first()
    if not school.acceptance_rules.exists():
        add_rule(desk=desk, school=school, from_cents=10000, who="the board")
    return _gift(desk, partner, day=day - timedelta(days=14), form="goods", school=school, given_value_cents=20000)


def to_thank_families(desk: Desk, partner: Any, day: date) -> Any:
    """What came from the families of one more school."""
    school = people.make_school(desk.program, f"School {desk.schools.count()}")
    came: dict[str, Any] = {"form": "goods", "lines": [Line(description="egg cartons")]}
    return receive(desk=desk, source="families", day=day - timedelta(days=7), school=school, **came)


def to_return(desk: Desk, partner: Any, day: date) -> Any:
    return _gift(desk, partner, day=day - timedelta(days=14), form="loan", return_on=day)


def to_hand_in(desk: Desk, partner: Any, day: date) -> Any:
    return _gift(desk, partner, day=day - timedelta(days=1), form="money", amount_cents=2500, money_kind="cash")


def approval(desk: Desk, partner: Any, day: date) -> Any:
    since, school = day - timedelta(days=200), desk.schools.first()
    return add_approval(desk=desk, school=school, what_for="asking", by="Ms. Odell", on=since, until=day)


def lapsed_approval(desk: Desk, partner: Any, day: date) -> Any:
    return Approval.objects.create(
        program=desk.program, school=desk.schools.first(), what_for="pictures", by="Dr. Okafor",
        on=day - timedelta(days=200), lapsed_on=day,
    )  # fmt: skip


def quiet(desk: Desk, partner: Any, day: date) -> Any:
    record_visit(desk=desk, partner=partner, happened="hello", day=day - timedelta(days=500))
    return partner


def _trade(
    desk: Desk, partner: Any, day: date, open_part: str = "", plain_due: date | None = None, **values: Any
) -> Any:
    """A trade of which only one part is open, and no paper."""
    ours = {"what": "paper bags", "at_least": 20, "due": day, "gives": [Given(what="seeds", quantity=9, due=day)]}
    plain = PlainItems(side=Side.THEM, due=plain_due or day)
    trade = agree(desk=desk, partner=partner, plain=plain, agreed_on=day - timedelta(days=9), **ours, **values)
    for part in trade.promises.exclude(part=open_part):
        close_part(desk=desk, promise=part, day=day, all_of_it=True)
    with change(desk, "papers"):
        approve(desk=desk, trade=trade, approval=None)
        sign_memo(desk=desk, trade=trade, day=day)
    return trade


def _part(part: str) -> Any:
    return lambda desk, partner, day: _trade(desk, partner, day, part).promises.get(part=part)


def trade_approval(desk: Desk, partner: Any, day: date) -> Any:
    trade = _trade(desk, partner, day)
    with change(desk, "not yet") as book:
        return book.update(trade, approval_settled=False, papers_due=day)


def trade_memo(desk: Desk, partner: Any, day: date) -> Any:
    trade = _trade(desk, partner, day)
    with change(desk, "not yet") as book:
        return book.update(trade, memo_signed_on=None, papers_due=day)


def class_start(desk: Desk, partner: Any, day: date) -> Any:
    """A class that must begin on the day, where it is a school day: one lesson, and two days for drying behind it."""
    due = clock(desk.program, desk.schools.first().pk).add(day, 2)
    trade = _trade(desk, partner, due, Part.MAKE, plain_due=day - timedelta(days=9))
    own = {"grade": 3, "students": 20, "minutes": 45, "meets_on": [0, 1, 2, 3, 4]}
    one = add_class(desk=desk, school=desk.schools.first(), label=f"Class {desk.classes.count()}", **own)
    choose_classes(desk=desk, trade=trade, classes=[(one, 0)])
    return trade.classes.get()


def _session(desk: Desk, day: date, needed: int = 1) -> Any:
    hours = {"starts": time(13), "ends": time(15)}
    return add_session(
        desk=replace(desk, day=day - timedelta(days=30)), day=day, place="the gym", needed=needed, **hours
    )


def _turn(desk: Desk, session: Any) -> Any:
    helper = add_helper(desk=desk, name=f"Helper {desk.helpers.count()}")
    return ask_helpers(desk=desk, session=session, helpers=[helper])[0]


def to_confirm_a_week_before(desk: Desk, partner: Any, day: date) -> Any:
    return _session(desk, day + timedelta(days=7))


def to_confirm_a_day_before(desk: Desk, partner: Any, day: date) -> Any:
    return _session(desk, day + timedelta(days=1))


def too_few(desk: Desk, partner: Any, day: date) -> Any:
    session = _session(desk, day + timedelta(days=7), needed=3)
    reply(desk=desk, turn=_turn(desk, session), answer="yes", day=day)
    return session


def to_count(desk: Desk, partner: Any, day: date) -> Any:
    session = _session(desk, day)
    reply(desk=desk, turn=_turn(desk, session), answer="yes", day=day)
    return session


def to_thank(desk: Desk, partner: Any, day: date) -> Any:
    session = _session(desk, day)
    came(desk=desk, turn=_turn(desk, session))
    return count(desk=desk, session=session, day=day)


def kit(desk: Desk, partner: Any, day: date) -> Any:
    helper = add_helper(desk=desk, name=f"Helper {desk.helpers.count()}")
    return take_home(desk=desk, helper=helper, what="felt hearts", out_on=day - timedelta(days=9), due=day)


def clearance(desk: Desk, partner: Any, day: date) -> Any:
    helper = add_helper(desk=desk, name=f"Helper {desk.helpers.count()}")
    return clear(desk=desk, helper=helper, cleared=True, until=day, by="the office")


MAKERS = {
    "helpers.week": to_confirm_a_week_before,
    "helpers.day": to_confirm_a_day_before,
    "helpers.short": too_few,
    "helpers.count": to_count,
    "helpers.thanks": to_thank,
    "helpers.kit": kit,
    "helpers.clearance": clearance,
    "visits.follow-up": follow_up,
    "visits.look-after": look_after,
    "promises.theirs": theirs,
    "promises.ours": ours,
    "exchanges.start": class_start,
    "exchanges.make": _part(Part.MAKE),
    "exchanges.plain": _part(Part.PLAIN),
    "exchanges.give": _part(Part.GIVE),
    "exchanges.approval": trade_approval,
    "exchanges.memo": trade_memo,
    "exchanges.put-up": lambda desk, partner, day: _trade(desk, partner, day, display_from=day),
    "exchanges.take-down": lambda desk, partner, day: _trade(desk, partner, day, display_until=day),
    "gifts.thanks": thanks,
    "gifts.accept": to_accept,
    "gifts.families": to_thank_families,
    "gifts.return": to_return,
    "gifts.hand-in": to_hand_in,
    "school.approval": approval,
    "school.lapsed": lapsed_approval,
    "directory.quiet": quiet,
    **more_books.MAKERS,
}


def make_line(desk: Desk, source: DueSource | str, day: date = DAY, partner: Any = None) -> Any:
    """The open row behind a line of the source, due on the day (for a quiet partner: long ago)."""
    if not desk.schools.exists():
        people.make_school(desk.program)
    slug = source if isinstance(source, str) else source.slug
    number = desk.partners.count()
    return MAKERS[slug](desk, partner or people.make_partner(desk.program, f"Partner {number}"), day)
