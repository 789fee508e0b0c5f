"""What something was given for: in the giver's words, else what money had been asked for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from django.utils.translation import gettext

from outreach.wording.counts import joined
from partners.gifts.models import Form, Gift, GiftLine
from partners.promises.counted import FOR_ANYTHING
from partners.promises.models import Promise


def what_for(gift: Gift, gifts: Sequence[Gift], language: str) -> dict[str, Any]:
    """What the letter for `gift` says of it, which thanks for all these `gifts`."""
    lines = gift.lines.all() if gift.form == Form.MONEY else ()
    return {
        "purpose": _joined((one.purpose for one in gifts), language),
        "meant_for": _joined((line.description for line in lines if tells_aim(line)), language),
    }


def promised_for(promise: Promise) -> str:
    return aim(promise.what) if promise.amount_cents and promise.ask_id else ""


def tells_aim(line: GiftLine) -> bool:
    """Whether a line of money says what it was asked for, and not what came."""
    promise = line.delivery.promise if line.delivery else None
    return line.need_id is not None or (promise is not None and promise.ask_id is not None)


def aim(words: str) -> str:
    """Without the word that leads up to it; "" where nobody said what money is for.

    >>> aim("For glazes."), aim("para un mural"), aim("a kiln"), aim("for the art room")
    ('glazes', 'un mural', 'a kiln', '')
    """
    if words in (FOR_ANYTHING, gettext(FOR_ANYTHING)):
        return ""
    said = words.strip().removesuffix(".")
    first, _, rest = said.partition(" ")
    return rest.strip() if first.casefold() in ("for", "para") else said


def _joined(texts: Iterable[str], language: str) -> str:
    return joined(list(dict.fromkeys(filter(None, map(aim, texts)))), language)
