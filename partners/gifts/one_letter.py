"""What one letter thanks for: all that one giver brought on one day, as far as one letter can say it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db.models import QuerySet

from partners.gifts.models import Form, Gift, Thanks, ThanksFor

ALIKE = ("partner_id", "school_id", "day", "form", "trade", "gave_back", "gave_back_cents", "return_on")
"""Money is acknowledged alone, by its amount; what differs in one of these needs a letter of its own."""


def letter_of(gift: Gift) -> tuple[Any, ...]:
    """Gifts for which this is the same are thanked for in one letter."""
    alone = gift.pk if gift.form == Form.MONEY else None
    return (alone, *(getattr(gift, name) for name in ALIKE))


def thanked_with(gifts: Iterable[Gift]) -> QuerySet[Thanks]:
    """Thanks still owed for what came with these gifts, from the same givers on the same days."""
    given = [gift for gift in gifts if gift.partner_id is not None]
    letters = {letter_of(gift) for gift in given}
    known = {gift.pk for gift in given}
    owed = Thanks.objects.owed().filter(
        reason=ThanksFor.GIFT,
        partner__in={gift.partner_id for gift in given},
        base__in={gift.day for gift in given},
    )
    others = owed.exclude(gift__in=known).select_related("gift")
    alike = [one.pk for one in others if one.gift is not None and letter_of(one.gift) in letters]
    return owed.filter(pk__in=alike).select_related("gift")


def same_letter(owed: Iterable[Thanks]) -> list[list[int]]:
    """The numbers of thanks for gifts, those that one letter says side by side, in their order."""
    letters: dict[Any, list[int]] = {}
    for one in owed:
        if one.gift is not None:
            letters.setdefault(letter_of(one.gift), []).append(one.pk)
    return list(letters.values())
