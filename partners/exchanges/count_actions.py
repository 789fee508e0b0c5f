"""Verbs: what classes start, finish and spoil, and what is delivered of either side's part."""

from __future__ import annotations

from contextlib import suppress
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.exchanges.models import Trade, TradeClass, TradeTally
from partners.exchanges.stored_plan import plan_again
from partners.ground.changes import change
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.promises import actions as promises
from partners.promises.models import Delivery, Part, Promise, Side


def start_class(*, desk: Desk, trade_class: TradeClass, day: date) -> TradeClass:
    with change(desk, gettext_noop("%(class)s began: %(what)s"), **_named(trade_class)) as book:
        book.about(trade_class.trade)
        return book.update(trade_class, started_on=day)


def tally(*, desk: Desk, trade_class: TradeClass, day: date, done: int = 0, spoiled: int = 0) -> TradeTally:
    """A class finished or spoiled so many. The first count is also its start.

    What is left is shared anew: what a class made beyond its share is taken off the others, and what it had no lesson
    left for passes to those that have. The lesson in which it is counted is not over by the count, so that no number
    jumps from tap to tap. Where no plan can be made, shares stand, and the count is kept all the same.
    """
    facts = {**_named(trade_class), "done": done, "spoiled": spoiled}
    with change(desk, gettext_noop("%(class)s: %(done)s done, %(spoiled)s spoiled, %(what)s"), **facts) as book:
        row = book.add(TradeTally(trade_class=trade_class, day=day, done=done, spoiled=spoiled))
        book.about(trade_class.trade)
        stored = TradeClass.objects.select_for_update().get(pk=trade_class.pk)
        sums: dict[str, Any] = {"done": stored.done + done, "spoiled": stored.spoiled + spoiled}
        book.update(stored, **sums, started_on=stored.started_on or day)
        row.trade_class = stored
        with suppress(PlainError):
            plan_again(book, desk, trade_class.trade, counting=True)
        return row


def take_back_tally(*, desk: Desk, tally: TradeTally) -> TradeClass:
    """It was counted wrongly. What the class started stays started while another count says so."""
    stored = TradeClass.objects.select_related("school_class", "trade").get(pk=tally.trade_class_id)
    with change(desk, gettext_noop("Count of %(class)s taken back: %(what)s"), **_named(stored)) as book:
        begun_by_it = stored.started_on == tally.day and not stored.tallies.exclude(pk=tally.pk).exists()
        book.remove(tally)
        book.about(stored.trade)
        started_on = None if begun_by_it else stored.started_on
        left: dict[str, Any] = {"done": stored.done - tally.done, "spoiled": stored.spoiled - tally.spoiled}
        book.update(stored, **left, started_on=started_on)
        with suppress(PlainError):
            plan_again(book, desk, stored.trade, counting=True)
        stored.refresh_from_db()
        return stored


def deliver_part(
    *,
    desk: Desk,
    promise: Promise,
    day: date,
    quantity: int | None = None,
    note: str = "",
    part: bool = False,
    went_back: int = 0,
) -> Delivery:
    """Finished items or plain items changed hands, some or all of them. Neither is a gift, and nobody owes thanks.

    With plain items that `went_back` along nothing more is made, unless this is a `part`.
    """
    theirs = gettext_noop("%(what)s from %(partner)s came")
    ours = gettext_noop("%(what)s handed over to %(partner)s")
    with change(desk, theirs if promise.side == Side.THEM else ours, **_of(promise)) as book:
        said: dict[str, Any] = {"quantity": quantity, "note": note, "part": part, "went_back": went_back}
        delivery = promises.deliver(desk=desk, promise=promise, day=day, **said)
        if went_back and not part:
            _no_more_made(desk, promise, day)
        _no_more_plain(desk, promise, day)
        book.about(trade_of(promise))
        return delivery


def give_back(*, desk: Desk, trade: Trade, day: date, count: int, part: bool = False) -> Delivery:
    """Plain items went back to who supplied them, and nothing else changed hands.

    Where finished ones were handed over before, they were all, unless this is a `part`.
    """
    plain, make = trade.plain, trade.make
    assert plain is not None  # noqa: S101 -- the form counts what came of them
    words = gettext_noop("%(count)s of %(what)s went back to %(partner)s")
    with change(desk, words, count=count, **_of(plain)) as book:
        delivery = book.add(Delivery(promise=plain, day=day, went_back=count))
        if make.delivered and not part:
            _no_more_made(desk, make, day)
            _no_more_plain(desk, make, day)
        book.about(trade)
        return delivery


def close_part(*, desk: Desk, promise: Promise, day: date, all_of_it: bool) -> Promise:
    """Nothing more of it is waited for: that was all, or it will not be."""
    kept, closed = gettext_noop("That was all: %(what)s, %(partner)s"), gettext_noop("Closed: %(what)s, %(partner)s")
    with change(desk, kept if all_of_it else closed, **_of(promise)) as book:
        verb = promises.that_was_all if all_of_it else promises.never_came
        verb(desk=desk, promise=promise, day=day)
        _no_more_plain(desk, promise, day)
        book.about(trade_of(promise))
        return promise


def move_part(*, desk: Desk, promise: Promise, due: date) -> Promise:
    """Both sides agreed on another day for one part; what is counted back from it moves along."""
    with change(desk, gettext_noop("%(what)s moved to %(due)s, %(partner)s"), due=due, **_of(promise)) as book:
        promises.move_promise(desk=desk, promise=promise, due=due)
        trade = trade_of(promise)
        book.about(trade)
        plan_again(book, desk, trade)
        return promise


def _no_more_made(desk: Desk, make: Promise, day: date) -> None:
    if make.settled_on is None:
        promises.that_was_all(desk=desk, promise=make, day=day)


def _no_more_plain(desk: Desk, promise: Promise, day: date) -> None:
    """Once all is made, the few plain items that did not come are no longer waited for."""
    made = Promise.objects.filter(pk=promise.pk, part=Part.MAKE, settled_on__isnull=False)
    rows = Promise.objects.filter(trade__in=made.values("trade"), part=Part.PLAIN, settled_on=None, delivered__gt=0)
    for plain in rows:
        promises.that_was_all(desk=desk, promise=plain, day=day)


def trade_of(promise: Promise) -> Trade:
    assert promise.trade is not None  # noqa: S101 -- a part stands in a trade; the database says so
    return promise.trade


def _of(promise: Promise) -> dict[str, Any]:
    return {"partner": promise.partner, "what": promise}


def _named(row: TradeClass) -> dict[str, Any]:
    return {"class": row.school_class, "what": row.trade}
