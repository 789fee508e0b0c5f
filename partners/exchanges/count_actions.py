"""Verbs: what classes start, finish and spoil, and what is delivered of either side's part."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.exchanges.models import TradeClass, TradeTally
from partners.ground.changes import change
from partners.program.desk import Desk
from partners.promises import actions as promises
from partners.promises.models import Delivery, Promise


def start_class(*, desk: Desk, trade_class: TradeClass, day: date) -> TradeClass:
    with change(desk, gettext_noop("%(class)s began: %(what)s"), **_named(trade_class)) as book:
        return book.update(trade_class, started_on=day)


def tally(*, desk: Desk, trade_class: TradeClass, day: date, done: int = 0, spoiled: int = 0) -> TradeTally:
    """A class finished or spoiled so many. The first count is also its start."""
    facts = {**_named(trade_class), "done": done, "spoiled": spoiled}
    with change(desk, gettext_noop("%(class)s: %(done)s done, %(spoiled)s spoiled, %(what)s"), **facts) as book:
        row = book.add(TradeTally(trade_class=trade_class, day=day, done=done, spoiled=spoiled))
        stored = TradeClass.objects.select_for_update().get(pk=trade_class.pk)
        sums: dict[str, Any] = {"done": stored.done + done, "spoiled": stored.spoiled + spoiled}
        begun = {} if stored.started_on is not None else {"started_on": day}
        book.update(stored, **sums, **begun)
        row.trade_class = stored
        return row


def take_back_tally(*, desk: Desk, tally: TradeTally) -> TradeClass:
    """It was counted wrongly. What the class started stays started while another count says so."""
    stored = TradeClass.objects.select_related("school_class", "trade").get(pk=tally.trade_class_id)
    with change(desk, gettext_noop("Count of %(class)s taken back: %(what)s"), **_named(stored)) as book:
        begun_by_it = stored.started_on == tally.day and not stored.tallies.exclude(pk=tally.pk).exists()
        book.remove(tally)
        back: dict[str, Any] = {"started_on": None} if begun_by_it else {}
        book.update(stored, done=stored.done - tally.done, spoiled=stored.spoiled - tally.spoiled, **back)
        return stored


def deliver_part(
    *, desk: Desk, promise: Promise, day: date, quantity: int | None = None, note: str = "", part: bool = False
) -> Delivery:
    """Finished items or plain items changed hands, some or all of them. Neither is a gift, and nobody owes thanks."""
    return promises.deliver(desk=desk, promise=promise, day=day, quantity=quantity, note=note, part=part)


def close_part(*, desk: Desk, promise: Promise, day: date, all_of_it: bool) -> Promise:
    """Nothing more of it is waited for: that was all, or it will not be."""
    if all_of_it:
        return promises.that_was_all(desk=desk, promise=promise, day=day)
    return promises.never_came(desk=desk, promise=promise, day=day)


def move_part(*, desk: Desk, promise: Promise, due: date) -> Promise:
    """Both sides agreed on another day for one part; what is counted back from it moves along."""
    return promises.move_promise(desk=desk, promise=promise, due=due)


def _named(row: TradeClass) -> dict[str, Any]:
    return {"class": row.school_class, "what": row.trade}
