"""Trades, as lines of a partner's story: what was agreed, each side's part, what changed hands, papers, the show."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.exchanges.models import Trade
from partners.exchanges.trade_page import state
from partners.ground.story import StoryLine
from partners.promises.counted import counted
from partners.promises.models import Delivery, Part, Promise, Side


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """What they gave stands among the gifts as well, with its thanks."""
    trades = desk.trades.filter(partner=partner).prefetch_related("promises")
    parts = {promise.pk: promise for trade in trades for promise in trade.promises.all()}
    handed = desk.deliveries.filter(promise__in=list(parts), gift_line=None)
    return [
        *(line for trade in trades for line in _told(desk, trade)),
        *(_handed(delivery, parts[delivery.promise_id]) for delivery in handed),
    ]


def _told(desk: Any, trade: Trade) -> Iterator[StoryLine]:
    agreed = _("Trade agreed: %(ours)s for %(theirs)s")
    theirs = ", ".join(one.words for one in trade.side(Part.GIVE))
    facts = {"ours": trade.make.words, "theirs": theirs or _("nothing named")}
    yield _line(trade, trade.agreed_on, agreed % facts, private=trade.note)
    for promise in trade.promises.all():
        yield StoryLine(
            day=promise.made_on,
            written_at=promise.created_at,
            what=promise.words,
            detail=state(promise, desk),
            side=promise.side,
            url=trade.get_absolute_url(),
            open=promise.settled_on is None,
        )
    for day, words in (
        (trade.memo_signed_on, _("Memo of the trade signed: %(what)s")),
        (trade.shown_on, _("Put on show: %(what)s")),
        (trade.taken_down_on, _("Taken down: %(what)s")),
        (trade.called_off_on, _("Trade called off: %(what)s")),
    ):
        if day is not None:
            until = trade.display_until if day == trade.shown_on else None
            detail = _("until %(day)s") % {"day": date_format(until, "DATE_FORMAT")} if until else ""
            yield _line(trade, day, words % {"what": trade.what}, detail=detail)


def _line(trade: Trade, day: date, what: str, detail: str = "", private: str = "") -> StoryLine:
    url = trade.get_absolute_url()
    return StoryLine(day, trade.created_at, what, detail=detail, private=private, url=url)


def _handed(delivery: Delivery, promise: Promise) -> StoryLine:
    ours = promise.part == Part.MAKE or promise.side == Side.US
    words = _("We delivered %(what)s") if promise.part == Part.MAKE else _("%(what)s were there")
    if not ours:
        words = _("They brought %(what)s")
    count, detail = delivery.quantity, ""
    if delivery.went_back and count:
        plain = ngettext("%(count)d plain one went back", "%(count)d plain ones went back", delivery.went_back)
        detail = plain % {"count": delivery.went_back}
    elif delivery.went_back:
        count, words = delivery.went_back, _("We gave back, unused: %(what)s")
    what = counted(count, promise.unit, promise.what)
    return StoryLine(
        day=delivery.day,
        written_at=delivery.created_at,
        what=words % {"what": what},
        detail=detail,
        private=delivery.note,
        url=promise.get_absolute_url(),
    )
