"""The rows of the record whose letters say a part, the newest first: for an example of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from outreach.wording.own_words import Part
from partners.gifts.models import Form
from partners.program.desk import Desk

_HELP = [Form.SERVICE, Form.SPACE, Form.DISCOUNT, Form.LOAN]
_ASKED: dict[str, dict[str, Any]] = {
    "our_side": {"trade": True},
    "given.exchange": {"trade": True},
    "closing.exchange": {"trade": True},
    "part_reaches": {"trade": True},
    "back_by": {"form": Form.LOAN, "return_on__isnull": False},
    "help_reaches": {"form__in": _HELP, "trade": False},
    "gift_reaches": {"form__in": [Form.GOODS, Form.MONEY], "trade": False},
    "see_gift": {"form__in": [Form.GOODS, Form.MONEY], "trade": False},
    "see_help": {"form__in": _HELP},
}


def nobody(desk: Desk, part: Part) -> tuple[Any, ...]:
    return ()


def gifts_that_say(desk: Desk, part: Part) -> Any:
    gifts = desk.gifts.exclude(partner=None).order_by("-day", "-pk")
    form = part.path.partition(".")[2]
    return gifts.filter(**_ASKED.get(part.path, {"form": form, "trade": False} if form else {}))


def thanks_that_say(reason: str) -> Callable[[Desk, Part], Any]:
    def rows(desk: Desk, part: Part) -> Any:
        return desk.thanks.filter(reason=reason, gift=None).order_by("-pk")

    return rows
