"""The facts of a trade's memo, and of the receipt for a part of it."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import Any

from django.db.models import Q, QuerySet, Sum
from django.utils.translation import gettext as _

from outreach.documents import trade_memo, trade_receipt
from outreach.documents.trade_memo import Part
from outreach.gathering.gratitude import counted_item, writes_to
from outreach.gathering.school import letterhead
from outreach.wording.counts import Item
from partners.exchanges.models import Trade
from partners.letters.models import Letter, LetterState
from partners.program.desk import Desk
from partners.promises.models import Delivery, Promise
from partners.promises.models import Part as Side
from partners.promises.models import Side as Whose
from partners.school.approval_models import Approval


def trades(desk: Desk) -> QuerySet[Trade]:
    rows: QuerySet[Trade] = desk.trades.select_related("partner", "school", "approval").prefetch_related("promises")
    return rows


def in_the_making(desk: Desk) -> QuerySet[Trade]:
    """Trades of which we still owe our part: the sheets by which classes work are of no other."""
    return trades(desk).filter(called_off_on=None, pk__in=desk.promises.open().part(Side.MAKE).values("trade"))


def gather_memo(desk: Desk, trade: Trade, words: dict[str, Any]) -> trade_memo.Facts:
    """What a memo said besides goes on being said until it is changed."""
    gone = gone_out(desk, trade)
    words = {**(gone[-1].words if gone else {}), **words}
    contact, plain, approval = writes_to(trade.partner), trade.plain, held(trade)
    facts = trade_memo.Facts(
        language=words.get("language") or desk.program.language,
        paper=desk.program.paper,
        letterhead=letterhead(trade.school, desk),
        day=desk.day,
        agreed_on=trade.agreed_on,
        school=trade.school.name if trade.school else desk.program.name,
        teacher=desk.signs.teacher,
        partner=trade.partner.name,
        contact=contact.name if contact else "",
        reach=own_reach(desk, trade),
        kind=trade.partner.kind,
        make=part(trade.make, trade.size),
        plain=part(plain) if plain else None,
        plain_by_us=plain is not None and plain.side == Whose.US,
        spare_percent=trade.spare_percent if trade.spares_included else 0,
        gives=tuple(part(given) for given in trade.side(Side.GIVE)),
        materials=trade.materials,
        display_from=trade.display_from,
        display_until=trade.display_until,
        names_on_work=trade.names_on_work,
        afterwards=trade.afterwards,
        if_late=trade.if_late,
        more=words.get("more", ""),
        approved_by=approval.by if approval else "",
        approved_on=approval.on if approval else None,
        needs_approval=not trade.approval_settled or (trade.approval is not None and approval is None),
    )
    return numbered(facts, gone)


def own_reach(desk: Desk, trade: Trade) -> str:
    """The phone or mail of who signs; the school's own phone stands at the head already."""
    phone, there = desk.signs.phone, trade.school.phone if trade.school else desk.program.phone
    return phone if phone and phone != there else desk.signs.email


def held(trade: Trade) -> Approval | None:
    """The yes to the trade, unless it lapsed with who gave it."""
    return trade.approval if trade.approval and trade.approval.lapsed_on is None else None


def gone_out(desk: Desk, trade: Trade) -> list[Letter]:
    """The memos of the trade that went out, in the order in which they did."""
    rows = desk.letters.filter(trade=trade, document=trade_memo.SLUG).exclude(state=LetterState.DRAFT)
    return list(rows.order_by("day", "pk"))


def numbered(facts: trade_memo.Facts, gone: list[Letter]) -> trade_memo.Facts:
    """With its version: one that says the same as the last is the same again, however often it was printed."""
    versions = [list(same) for _terms, same in groupby(gone, key=lambda letter: letter.words.get("terms"))]
    before = versions[:-1] if versions and versions[-1][-1].words.get("terms") == trade_memo.terms(facts) else versions
    return replace(facts, version=len(before) + 1, replaces=before[-1][-1].day if before else None)


def version_of(facts: trade_memo.Facts) -> str:
    return _("version %(number)s") % {"number": facts.version} if facts.version > 1 else ""


def gather_receipt(desk: Desk, delivery: Delivery, words: dict[str, Any] | None = None) -> trade_receipt.Facts:
    """Counted are the deliveries of the same promise up to and with this one."""
    promise, trade = delivery.promise, delivery.promise.trade
    ours = trade.school.name if trade and trade.school else desk.program.name
    sides = (promise.partner.name, ours)
    only_back = not delivery.quantity and delivery.went_back > 0
    giver, taker = sides if (promise.side == Whose.THEM) != only_back else reversed(sides)
    earlier = promise.deliveries.filter(Q(day__lt=delivery.day) | Q(day=delivery.day, pk__lte=delivery.pk))
    return trade_receipt.Facts(
        language=desk.program.language,
        paper=desk.program.paper,
        letterhead=letterhead(trade.school if trade else None, desk),
        day=delivery.day,
        item=replace(part(promise).item, quantity=delivery.quantity or delivery.went_back or None, at_most=None),
        giver=giver,
        taker=taker,
        trade=str(trade),
        agreed=None if only_back else part(promise).item,
        so_far=earlier.aggregate(came=Sum("quantity"))["came"],
        that_was_all=promise.settled_on is not None and delivery == promise.deliveries.last(),
        carrier="" if only_back else promise.carrier,
        went_back=None if only_back else went_along(delivery),
        only_back=only_back,
    )


def went_along(delivery: Delivery) -> Item | None:
    """The plain items that went along."""
    plain = delivery.promise.trade.plain if delivery.went_back and delivery.promise.trade else None
    return replace(counted_item(plain), quantity=delivery.went_back, at_most=None) if plain else None


def part(promise: Promise, kind: str = "") -> Part:
    return Part(replace(counted_item(promise), kind=kind), promise.due, promise.carrier)
