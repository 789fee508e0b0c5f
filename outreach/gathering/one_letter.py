"""Which gifts one gratitude letter thanks for: what one giver brought on one day and is not thanked for yet."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.db.models import Count

from outreach.gathering.remembered import remembered
from partners.gifts.models import Gift, ThanksFor
from partners.gifts.one_letter import letter_of, thanked_with
from partners.letters.actions import has_draft
from partners.program.desk import Desk

LETTER = "gratitude-letter"


def of_one_letter(desk: Desk, gift: Gift) -> Sequence[Gift]:
    """All of them; first the one whose letter is being written already, else the one written down first."""
    if (gift.partner_id, gift.day) not in days_of_several(desk):
        return (gift,)
    others = desk.gifts.filter(thanks__in=thanked_with([gift]), thanks__done_on=None)
    if not desk.thanks.owed().filter(gift=gift).exists():
        return (gift,)
    found = sorted([gift, *others.select_related("partner", "school", "project")], key=lambda one: one.pk)
    begun = has_draft(desk, LETTER, "gift", found)
    return sorted(found, key=lambda one: one.pk not in begun)


def first_of_each(desk: Desk, gifts: Sequence[Gift]) -> set[int]:
    """The numbers of those that letters about all of these stand with."""
    together: dict[object, list[Gift]] = {}
    for gift in gifts:
        together.setdefault(letter_of(gift), []).append(gift)
    return {(of_one_letter(desk, some[0])[0] if len(some) > 1 else some[0]).pk for some in together.values()}


@remembered
def days_of_several(desk: Desk) -> set[tuple[int | None, date]]:
    """Givers and days with thanks owed for more than one gift."""
    owed = desk.thanks.owed().filter(reason=ThanksFor.GIFT).order_by().values_list("partner", "base")
    return {(giver, day) for giver, day, _count in owed.annotate(count=Count("pk")).filter(count__gt=1)}
