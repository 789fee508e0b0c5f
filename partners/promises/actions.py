"""Verbs: what is promised, what of it came, and how it ends."""

from __future__ import annotations

from datetime import date, time
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext_noop

from partners.directory.models import Partner
from partners.ground.changes import Change, ChangedMeanwhile, change
from partners.program.desk import Desk
from partners.promises.models import Delivery, Every, Offer, Promise, Settled, Side
from partners.promises.rhythm import day_of_turn, next_turn
from partners.school.calendar import SchoolCalendar
from partners.school.clock import clock
from partners.school.models import School
from partners.visits.models import Ask, Visit
from partners.wish_list.models import Need

if TYPE_CHECKING:
    from partners.exchanges.models import Trade


def promise(
    *,
    desk: Desk,
    partner: Partner,
    side: str,
    what: str,
    due: date,
    made_on: date,
    quantity: int | None = None,
    at_most: int | None = None,
    unit: str = "",
    amount_cents: int | None = None,
    due_hour: time | None = None,
    collect: bool = True,
    ask: Ask | None = None,
    offer: Offer | None = None,
    visit: Visit | None = None,
    school: School | None = None,
    need: Need | None = None,
    trade: Trade | None = None,
    part: str = "",
    carrier: str = "",
) -> Promise:
    """One side said what it will do by which day. `due` stays the day that was said, school day or not."""
    theirs = gettext_noop("%(partner)s promised %(what)s")
    ours = gettext_noop("We promised %(what)s to %(partner)s")
    with change(desk, theirs if side == Side.THEM else ours, partner=partner, what=what) as book:
        row = Promise(partner=partner, side=side, what=what, due=due, due_hour=due_hour, made_on=made_on)
        row.quantity, row.at_most, row.unit, row.amount_cents = quantity, at_most, unit, amount_cents
        row.collect, row.ask, row.offer, row.visit = collect, ask, offer, visit
        row.school, row.need = school, need
        row.trade, row.part, row.carrier = trade, part, carrier
        return book.add(row)


def put_promise_right(*, desk: Desk, promise: Promise, **values: Any) -> Promise:
    """What was promised is said anew, `values` by the columns' names. One that what came fulfils now is settled, one
    that it fulfils no longer is open again.
    """
    with change(desk, gettext_noop("Promise of %(what)s changed, %(partner)s"), **_named(promise)) as book:
        book.update(promise, **values)
        if "quantity" in values:
            _recount(book, desk, promise)
        return promise


def drop_promise(*, desk: Desk, promise: Promise) -> None:
    """It was never promised. What came of it must be taken back first."""
    with change(desk, gettext_noop("Promise of %(what)s taken out, %(partner)s"), **_named(promise)) as book:
        book.remove(promise)


def leave_out(*, desk: Desk, promise: Promise, day: date) -> Promise:
    """Both sides agreed that it is not done. What came of it until then was all."""
    with change(desk, gettext_noop("Left out: %(what)s, %(partner)s"), **_named(promise)) as book:
        how = Settled.THAT_WAS_ALL if promise.deliveries.exists() else Settled.SKIPPED
        return _settle(book, desk, promise, day, how)


def deliver(
    *,
    desk: Desk,
    promise: Promise,
    day: date,
    quantity: int | None = None,
    note: str = "",
    part: bool = False,
    went_back: int = 0,
) -> Delivery:
    """Some or all of it was brought, collected or handed over.

    Settles the promise when the smaller promised number is there, or when no number was said; `part` says that more is
    to come all the same. What comes after a promise was closed is written down too, and the promise counts as kept.
    """
    theirs = gettext_noop("%(what)s from %(partner)s came")
    ours = gettext_noop("%(what)s handed over to %(partner)s")
    words = theirs if promise.side == Side.THEM else ours
    with change(desk, words, partner=promise.partner, what=promise) as book:
        delivery = book.add(Delivery(promise=promise, day=day, quantity=quantity, note=note, went_back=went_back))
        delivered = promise.delivered + (quantity or 0)
        enough = not part and (promise.quantity is None or delivered >= promise.quantity)
        was_open = promise.settled_on is None
        if enough:
            ended: dict[str, Any] = {"settled_on": promise.settled_on or day, "settled_how": Settled.CAME}
        else:
            ended = {} if was_open else {"settled_how": Settled.THAT_WAS_ALL}
        book.update(promise, delivered=delivered, **ended)
        if enough and was_open:
            _call_up_next(book, desk, promise, day)
        return delivery


def correct_delivery(*, desk: Desk, delivery: Delivery, day: date, quantity: int | None) -> Delivery:
    """Another day or number was meant. A promise that counted as fulfilled and is not is open again."""
    promise = delivery.promise
    with change(desk, gettext_noop("Delivery of %(what)s put right, %(partner)s"), **_named(promise)) as book:
        book.update(delivery, day=day, quantity=quantity)
        _recount(book, desk, promise)
        return delivery


def take_back_delivery(*, desk: Desk, delivery: Delivery) -> Promise:
    """It was no delivery of this promise. What stands on it must be removed first."""
    promise = delivery.promise
    with change(desk, gettext_noop("Delivery of %(what)s taken back, %(partner)s"), **_named(promise)) as book:
        book.remove(delivery)
        _recount(book, desk, promise)
        return promise


def that_was_all(*, desk: Desk, promise: Promise, day: date) -> Promise:
    """Less came than was said, and that is fine: nothing more is waited for, and the promise counts as kept."""
    with change(desk, gettext_noop("That was all: %(what)s, %(partner)s"), **_named(promise)) as book:
        return _settle(book, desk, promise, day, Settled.THAT_WAS_ALL)


def never_came(*, desk: Desk, promise: Promise, day: date) -> Promise:
    """Nothing came. Thanks for the promise that were not said yet are dropped, since they would read as a reproach;
    what was said stays, and so does a letter that is being written.
    """
    with change(desk, gettext_noop("Closed: %(what)s, %(partner)s"), **_named(promise)) as book:
        for owed in promise.thanks.filter(done_on=None):
            book.update_many(owed.letters.all(), thanks=None)
            book.remove(owed)
        return _settle(book, desk, promise, day, Settled.NEVER_CAME)


def move_promise(*, desk: Desk, promise: Promise, due: date, seen: int | None = None) -> Promise:
    """Both sides agreed on another day."""
    with change(desk, gettext_noop("%(what)s moved to %(due)s, %(partner)s"), due=due, **_named(promise)) as book:
        return book.update(promise, seen=seen, due=due, by_rhythm=False)


def skip(*, desk: Desk, promise: Promise, day: date) -> Promise:
    """Not this time; the next one of a standing offer comes by its rhythm."""
    with change(desk, gettext_noop("Skipped this time: %(what)s, %(partner)s"), **_named(promise)) as book:
        return _settle(book, desk, promise, day, Settled.SKIPPED)


def make_offer(
    *,
    desk: Desk,
    partner: Partner,
    what: str,
    first_on: date,
    every: str = "",
    ends_on: date | None = None,
    quantity: int | None = None,
    visit: Visit | None = None,
    school: School | None = None,
    need: Need | None = None,
    hour: time | None = None,
) -> Offer:
    """They offered something unasked. The first collection is promised for the very day they named."""
    with change(desk, gettext_noop("%(partner)s offered %(what)s"), partner=partner, what=what) as book:
        offer = book.add(
            Offer(
                partner=partner,
                what=what,
                first_on=first_on,
                every=every,
                ends_on=ends_on,
                quantity=quantity,
                visit=visit,
                school=school,
                need=need,
            )
        )
        made_on = visit.day if visit else desk.day
        _call_up(book, offer, due=first_on, made_on=made_on, hour=hour, turn=0 if every else None)
        return offer


def end_offer(*, desk: Desk, offer: Offer, day: date) -> Offer:
    """No more of it after `day`. A collection that was still ahead is skipped; one past its day is still to settle."""
    with change(desk, gettext_noop("Offer ended: %(what)s, %(partner)s"), partner=offer.partner, what=offer) as book:
        ahead = offer.promises.open().filter(due__gt=day)
        book.update_many(ahead, settled_on=day, settled_how=Settled.SKIPPED)
        return book.update(offer, ended_on=day)


def _named(promise: Promise) -> dict[str, Any]:
    return {"partner": promise.partner, "what": promise}


def _recount(book: Change, desk: Desk, promise: Promise) -> None:
    came = list(promise.deliveries.all())
    delivered = sum(delivery.quantity or 0 for delivery in came)
    enough = bool(came) and (promise.quantity is None or delivered >= promise.quantity)
    ended: dict[str, Any] = {}
    if promise.settled_how == Settled.CAME and not enough:
        ended = {"settled_on": None, "settled_how": ""}
    elif promise.settled_on is None and enough and promise.quantity is not None:
        ended = {"settled_on": came[-1].day, "settled_how": Settled.CAME}
    book.update(promise, delivered=delivered, **ended)
    if ended.get("settled_on"):
        _call_up_next(book, desk, promise, came[-1].day)


def _settle(book: Change, desk: Desk, promise: Promise, day: date, how: str) -> Promise:
    if promise.settled_on:
        raise ChangedMeanwhile(promise)
    book.update(promise, settled_on=day, settled_how=how)
    _call_up_next(book, desk, promise, day)
    return promise


def _call_up_next(book: Change, desk: Desk, promise: Promise, day: date) -> None:
    """The next collection of a standing offer, on a school day; past its last day the offer ends by itself."""
    offer = promise.offer
    if offer is None or offer.ended_on or promise.turn is None or offer.every == Every.ONCE:
        return
    turn = next_turn(offer.first_on, offer.every, promise.turn, max(day, promise.due))
    due = day_by_rhythm(clock(desk.program, offer.school_id), offer, turn)
    if offer.ends_on and due > offer.ends_on:
        book.update(offer, ended_on=day)
        return
    _call_up(book, offer, due=due, made_on=day, hour=promise.due_hour, turn=turn)


def day_by_rhythm(calendar: SchoolCalendar, offer: Offer, turn: int) -> date:
    """The school day of one collection of a standing offer. Raises NoSchoolDay."""
    return calendar.on_or_after(day_of_turn(offer.first_on, offer.every, turn))


def _call_up(book: Change, offer: Offer, *, due: date, made_on: date, hour: time | None, turn: int | None) -> Promise:
    return book.add(
        Promise(
            partner=offer.partner,
            side=Side.THEM,
            offer=offer,
            visit=offer.visit,
            school=offer.school,
            need=offer.need,
            what=offer.what,
            quantity=offer.quantity,
            made_on=made_on,
            due=due,
            due_hour=hour,
            turn=turn,
            by_rhythm=bool(turn),
        )
    )
