"""What each side promised, as lines of a partner's story."""

from __future__ import annotations

from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.ground.story import StoryLine
from partners.promises.counted import counted
from partners.promises.models import Delivery, Promise, Settled, Side


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """Every promise, and what was handed over; what they brought stands among the gifts, trades tell their own."""
    own = desk.promises.filter(partner=partner).of_no_trade().select_related("offer")
    promised = {promise.pk: promise for promise in own}
    handed = desk.deliveries.filter(promise__in=list(promised), gift_line=None)
    return [
        *(_promised(one, one.told(amounts=desk.reads_amounts)) for one in promised.values()),
        *(_handed(delivery, promised[delivery.promise_id]) for delivery in handed),
    ]


def _promised(promise: Promise, what: str) -> StoryLine:
    return StoryLine(
        day=promise.made_on,
        written_at=promise.created_at,
        what=what,
        detail=", ".join(_details(promise)),
        side=promise.side,
        url=promise.get_absolute_url(),
        open=promise.settled_on is None,
    )


def _details(promise: Promise) -> list[str]:
    found = [_("by %(day)s") % {"day": date_format(promise.due, "DATE_FORMAT")}]
    if promise.offer is not None and promise.offer.every:
        found.append(str(promise.offer.get_every_display()))
    if promise.delivered and promise.settled_how != Settled.CAME:
        found.append(_("%(count)s came") % {"count": f"{promise.delivered:,}"})
    if promise.settled_how:
        found.append(str(promise.get_settled_how_display()))
    return found


def _handed(delivery: Delivery, promise: Promise) -> StoryLine:
    what = counted(delivery.quantity, promise.unit, promise.what)
    words = _("We handed over %(what)s") if promise.side == Side.US else _("They brought %(what)s")
    return StoryLine(
        day=delivery.day,
        written_at=delivery.created_at,
        what=words % {"what": what},
        private=delivery.note,
        url=promise.get_absolute_url(),
    )
