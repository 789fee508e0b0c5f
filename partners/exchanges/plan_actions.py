"""Verbs of the plan by class: which classes take part, who makes how many, planning anew."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.exchanges.actions import papers_due
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.offers import Offer, OfferKind
from partners.exchanges.plan import Plan, earliest_due, plan
from partners.exchanges.planning import Gathered, gather
from partners.exchanges.stored_plan import plan_again
from partners.ground.changes import Change, change
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.promises import actions as promises
from partners.school.models import SchoolClass

HAS_WORKED = gettext_noop("%(classes)s made something for it already, and so stays in the plan.")
MORE_THAN_PROMISED = gettext_noop("%(label)s would make more than all that is promised, %(most)s.")
BELOW_DONE = gettext_noop("%(label)s has made %(done)s already. Its share cannot be less.")


@dataclass(frozen=True)
class Moved:
    """A class whose share is another one than before."""

    label: str
    before: int
    after: int


def choose_classes(*, desk: Desk, trade: Trade, classes: Sequence[tuple[SchoolClass, int]]) -> Plan:
    """These classes take part, each with so many children who do not. Others leave the plan, if they made nothing yet.

    Raises PlainError.
    """
    wanted = {school_class.pk: (school_class, without) for school_class, without in classes}
    with change(desk, gettext_noop("Classes chosen for %(what)s, %(partner)s"), **_named(trade)) as book:
        stored = {row.school_class_id: row for row in trade.classes.select_related("school_class")}
        leave([row for pk, row in stored.items() if pk not in wanted], book)
        for pk, (school_class, without) in wanted.items():
            if pk not in stored:
                book.add(TradeClass(trade=trade, school_class=school_class, not_taking_part=without))
            elif stored[pk].not_taking_part != without:
                book.update(stored[pk], not_taking_part=without)
        book.about(trade)
        return plan_again(book, desk, trade)


def leave(rows: Collection[TradeClass], book: Change) -> None:
    """Raises PlainError where one of them made something, or spoiled it."""
    worked = [row for row in rows if row.done or row.spoiled or row.tallies.exists()]
    if worked:
        labels = get_text_list([row.school_class.label for row in worked], _("and"))
        raise PlainError("has_worked", HAS_WORKED, classes=labels)
    for row in rows:
        book.remove(row)


def set_share(*, desk: Desk, trade_class: TradeClass, share: int | None, seen: int | None = None) -> list[Moved]:
    """A share set by hand stands, and the others take up the difference; None lets it be worked out again.

    Returns which others moved. Raises PlainError.
    """
    label = trade_class.school_class.label
    if share is not None and share < trade_class.done:
        raise PlainError("below_done", BELOW_DONE, label=label, done=trade_class.done)
    trade = trade_class.trade
    most = max(trade.make.at_most or trade.make.quantity or 0, trade_class.done)
    if share is not None and share > most:
        raise PlainError("more_than_promised", MORE_THAN_PROMISED, label=label, most=f"{most:,}")
    with change(desk, gettext_noop("Share of %(class)s set: %(what)s"), **_of(trade_class)) as book:
        before = shares_of(trade)
        values = {"by_hand": False} if share is None else {"by_hand": True, "share": share}
        book.update(trade_class, seen=seen, **values)
        book.about(trade)
        plan_again(book, desk, trade)
        return [one for pk, one in moved(before, shares_of(trade)).items() if pk != trade_class.pk]


def replan(*, desk: Desk, trade: Trade) -> Plan:
    """What is left is shared over the classes that have room for it by now. Raises PlainError."""
    with change(desk, gettext_noop("Planned anew: %(what)s, %(partner)s"), **_named(trade)) as book:
        made = plan_again(book, desk, trade, keep=False)
        book.about(trade)
        return made


def take_offer(*, desk: Desk, trade: Trade, kind: str) -> tuple[Offer, date] | None:
    """Do what the plan offers; None where it offers that no longer. Returns the offer and the day that is promised.

    A later day or a smaller number is another promise, and a memo that was signed is then signed anew.
    """
    with change(desk, gettext_noop("Plan changed to what fits: %(what)s, %(partner)s"), **_named(trade)) as book:
        gathered = gather(desk.program, trade, desk.day)
        made = plan(gathered.wish, gathered.classes)
        offer = next((one for one in made.offers if one.kind == kind), None)
        if offer is None:
            return None
        due = due_of(offer, gathered)
        if offer.kind is not OfferKind.FEWER:
            promise_otherwise(book, desk, trade, at_least=offer.at_least, due=due)
        rows = {row.pk: row for row in gathered.rows}
        for pk, share in offer.by_hand.items():
            book.update(rows[pk], share=share, by_hand=True)
        book.about(trade)
        plan_again(book, desk, trade, keep=False)
        return offer, due


def due_of(offer: Offer, gathered: Gathered) -> date:
    """The day that can be promised once the offer is taken."""
    if offer.kind is not OfferKind.LATER:
        return gathered.wish.due
    return max(gathered.wish.due, earliest_due(gathered.calendar, offer.work_until, gathered.trade.finishing_days))


def promise_otherwise(book: Change, desk: Desk, trade: Trade, *, at_least: int, due: date) -> None:
    """Another number or day than was agreed; a memo that was signed is to be signed anew."""
    make = trade.make
    values: dict[str, Any] = {"quantity": at_least, "due": due}
    if at_least != make.quantity:
        values["at_most"] = None
    promises.put_promise_right(desk=desk, promise=make, **values)
    if trade.memo_signed_on is not None:
        book.update(trade, memo_signed_on=None, papers_due=papers_due(desk, desk.day, trade.school))


def shares_of(trade: Trade) -> dict[int, tuple[str, int]]:
    return {pk: (label, share) for pk, label, share in trade.classes.values_list("pk", "school_class__label", "share")}


def moved(before: Mapping[int, tuple[str, int]], after: Mapping[int, tuple[str, int]]) -> dict[int, Moved]:
    return {
        pk: Moved(label, before[pk][1], share)
        for pk, (label, share) in after.items()
        if pk in before and before[pk][1] != share
    }


def _of(row: TradeClass) -> dict[str, Any]:
    return {"class": row.school_class, "what": row.trade}


def _named(trade: Trade) -> dict[str, Any]:
    return {"partner": trade.partner, "what": trade}
