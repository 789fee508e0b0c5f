"""Verbs: what came, the thanks that are owed for it, and whom it still has to pass."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from django.db.models import Max
from django.utils.translation import gettext_noop

from partners.directory.actions import add_partner, heard
from partners.directory.models import Partner
from partners.gifts.duties import DUTY_OF, duties, thanks_days
from partners.gifts.family_actions import day_named_for
from partners.gifts.models import Form, Gift, GiftLine, MoneyKind, Source, Thanks
from partners.gifts.thanks_actions import owe_thanks_for
from partners.ground.changes import Change, change
from partners.program.desk import Desk
from partners.promises.actions import correct_delivery, deliver, take_back_delivery
from partners.promises.models import Promise
from partners.school.models import School
from partners.visits.actions import who
from partners.wish_list.models import Need

if TYPE_CHECKING:
    pass


@dataclass(frozen=True, kw_only=True)
class Line:
    """One thing of a gift; the promise it fulfils is delivered with it."""

    description: str
    quantity: int | None = None
    unit: str = ""
    need: Need | None = None
    condition: str = ""
    risk: str = ""
    promise: Promise | None = None


@dataclass(frozen=True, kw_only=True)
class LineEdit:
    """A line as it is to be; without `row` a new one, without a description one to take out."""

    row: GiftLine | None
    description: str
    quantity: int | None = None
    unit: str = ""
    condition: str = ""
    risk: str = ""


def receive(
    *,
    desk: Desk,
    source: str,
    day: date,
    form: str,
    partner: Partner | str | None = None,
    school: School | None = None,
    lines: Sequence[Line] = (),
    partner_kind: str = "",
    **values: Any,
) -> Gift:
    """Something arrived. Its lines deliver what was promised, and a partner's gift owes thanks.

    A name as `partner` is a new partner, of `partner_kind` if that is known. `values` are further columns of Gift by
    name. Who must accept it, and until when money is handed in, follows from the school's rules (`duties`).
    """
    giver = partner or Source(source).label
    with change(desk, gettext_noop("What came from %(giver)s written down"), giver=giver) as book:
        if isinstance(partner, str):
            partner = add_partner(desk=desk, name=partner, **({"kind": partner_kind} if partner_kind else {}))
        values |= _of_trades(line.promise for line in lines)
        gift = Gift(source=source, partner=partner, school=school, day=day, form=form, **values)
        gift.received_by = gift.received_by or who(desk)
        for name, value in duties(desk, gift).items():
            setattr(gift, name, value)
        named = day_named_for(gift)
        if named is not None:
            gift.families_due, gift.families_day_named = named, True
        book.add(gift)
        book.about(gift)
        for position, line in enumerate(lines, start=1):
            _add_line(book, desk, gift, line, position)
        if partner is not None:
            heard(desk=desk, partner=partner, day=day)
            promises = [line.promise for line in lines if line.promise is not None]
            owe_thanks_for(desk=desk, partner=partner, gift=gift, promises=promises)
        return gift


def receive_promised(*, desk: Desk, promise: Promise, day: date) -> Gift:
    """All that was still to come of a promise came, just as it was said."""
    line = Line(
        description=promise.what,
        quantity=promise.missing or promise.quantity,
        unit=promise.unit,
        need=promise.need,
        promise=promise,
    )
    came: dict[str, Any] = {"form": Form.GOODS}
    if promise.amount_cents:
        came = {"form": Form.MONEY, "amount_cents": still_to_pay(promise), "money_kind": MoneyKind.CHECK}
    project = promise.need.project if promise.need else None
    if promise.trade is not None:
        project = project or promise.trade.project
        came["gave_back"] = gave_back(promise)
    came |= {"source": Source.PARTNER, "partner": promise.partner, "school": promise.school, "project": project}
    return receive(desk=desk, day=day, lines=[line], **came)


def edit_gift(
    *, desk: Desk, gift: Gift, lines: Sequence[LineEdit] = (), seen: int | None = None, **values: Any
) -> Gift:
    """What was written down is put right, and with it what was delivered, and every day that is not settled yet."""
    with change(desk, gettext_noop("What came from %(giver)s put right"), giver=gift.giver) as book:
        delivered = gift.lines.filter(delivery__promise__trade__isnull=False).select_related("delivery__promise")
        values |= _of_trades(line.delivery.promise for line in delivered if line.delivery is not None)
        moved = {name for name in DUTY_OF & values.keys() if getattr(gift, name) != values[name]}
        book.update(gift, seen=seen, **values)
        book.about(gift)
        if moved:
            book.update(gift, **_still_open(gift, duties(desk, gift)))
        _edit_lines(book, desk, gift, lines)
        if gift.partner is not None and "day" in moved:
            book.update(gift.partner, last_heard_on=last_word(gift.partner))
        owed = Thanks.objects.filter(gift=gift).owed().first()
        if owed is not None and moved & {"day", "school"}:
            book.update(owed, school=gift.school, **thanks_days(desk, gift.day, gift.school_id))
        return gift


def accept(*, desk: Desk, gift: Gift, day: date) -> Gift:
    """Whoever must accept it did so."""
    with change(desk, gettext_noop("What came from %(giver)s was accepted"), giver=gift.giver) as book:
        return book.update(gift, accepted_on=day)


def move_acceptance(*, desk: Desk, gift: Gift, due: date) -> Gift:
    """The board decides on another day."""
    with change(desk, gettext_noop("Acceptance moved to %(due)s, %(giver)s"), giver=gift.giver, due=due) as book:
        return book.update(gift, accept_due=due, accept_day_named=True)


def looked_at(*, desk: Desk, gift: Gift, **ticks: bool) -> Gift:
    """Somebody looked whether children can use it; what is not ticked waits."""
    with change(desk, gettext_noop("What came from %(giver)s looked at"), giver=gift.giver) as book:
        return book.update(gift, **ticks)


def hand_in(*, desk: Desk, gift: Gift, day: date, receipt_number: str = "") -> Gift:
    """The money is in the office."""
    with change(desk, gettext_noop("Money from %(giver)s handed in"), giver=gift.giver) as book:
        return book.update(gift, handed_in_on=day, receipt_number=receipt_number or gift.receipt_number)


def return_loan(*, desk: Desk, gift: Gift, day: date) -> Gift:
    with change(desk, gettext_noop("Loan returned to %(giver)s"), giver=gift.giver) as book:
        return book.update(gift, returned_on=day)


def move_return(*, desk: Desk, gift: Gift, due: date) -> Gift:
    """They lend it for longer, or want it back sooner."""
    with change(desk, gettext_noop("Loan to return by %(due)s, %(giver)s"), giver=gift.giver, due=due) as book:
        return book.update(gift, return_on=due)


def gave_back(promise: Promise) -> str:
    """What we make for it, where it is their part of a trade: the number that was delivered, once all of it was."""
    return promise.trade.make.kept_words[:160] if promise.trade is not None else ""


def still_to_pay(promise: Promise) -> int:
    """Cents of a promised amount that did not come yet; the whole amount where all of it came already."""
    promised = promise.amount_cents or 0
    return max(0, promised - paid(promise)) or promised


def paid(promise: Promise) -> int:
    """Cents that came of a promised amount."""
    came = Gift.objects.filter(lines__delivery__promise=promise).values_list("amount_cents", flat=True)
    return sum(cents or 0 for cents in came)


def _of_trades(promises: Iterable[Promise | None]) -> dict[str, Any]:
    """What fulfils their part of a trade is part of it, whatever was ticked, so that its letter never says "nothing in
    return".
    """
    return {"trade": True} if any(promise is not None and promise.trade_id for promise in promises) else {}


def _still_open(gift: Gift, due: dict[str, Any]) -> dict[str, Any]:
    """Without what is settled, and without the days somebody named."""
    settled = set()
    if gift.handed_in_on is not None:
        settled.add("hand_in_due")
    if gift.accepted_on is not None:
        settled |= {"accept_by_whom", "accept_due"}
    if gift.accept_day_named and due["accept_due"] is not None:
        settled.add("accept_due")
    if gift.families_thanked_on is not None or gift.families_day_named:
        settled.add("families_due")
    return {name: value for name, value in due.items() if name not in settled}


def last_word(partner: Partner) -> date | None:
    """The last day on which there was word from or to the partner, counted anew after a day was put right."""
    steps = {name: Max(name) for name in ("asked_on", "answered_on", "reported_on")}
    days = [
        partner.visits.aggregate(day=Max("day"))["day"],
        partner.follow_ups.aggregate(day=Max("done_on"))["day"],
        partner.gifts.aggregate(day=Max("day"))["day"],
        *partner.grants.aggregate(**steps).values(),
    ]
    return max((day for day in days if day), default=None)


def _add_line(book: Change, desk: Desk, gift: Gift, line: Line, position: int) -> None:
    delivery = None
    if line.promise is not None:
        part = bool(line.promise.amount_cents) and _is_part(gift, line.promise)
        delivery = deliver(desk=desk, promise=line.promise, day=gift.day, quantity=line.quantity, part=part)
    row = GiftLine(gift=gift, position=position, delivery=delivery, description=line.description)
    row.quantity, row.unit = line.quantity, line.unit
    row.need = line.need or (line.promise.need if line.promise else None)
    row.condition, row.risk = line.condition, line.risk
    book.add(row)


def _is_part(gift: Gift, promise: Promise) -> bool:
    return paid(promise) + (gift.amount_cents or 0) < (promise.amount_cents or 0)


def _edit_lines(book: Change, desk: Desk, gift: Gift, lines: Sequence[LineEdit]) -> None:
    last = max((line.row.position for line in lines if line.row), default=0)
    for line in lines:
        words = {name: getattr(line, name) for name in ("description", "quantity", "unit", "condition", "risk")}
        if line.row is None:
            if line.description:
                last += 1
                book.add(GiftLine(gift=gift, position=last, **words))
            continue
        delivery = line.row.delivery
        if not line.description:
            book.remove(line.row)
            if delivery is not None:
                take_back_delivery(desk=desk, delivery=delivery)
            continue
        book.update(line.row, **words)
        if delivery is not None:
            correct_delivery(desk=desk, delivery=delivery, day=gift.day, quantity=line.quantity)
