"""Verbs of thanks: owed from the day they arise, and said."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext_noop

from partners.directory.models import Partner
from partners.gifts.duties import thanks_days
from partners.gifts.models import Gift, Thanks, ThanksFor
from partners.gifts.one_letter import thanked_with
from partners.ground.changes import Change, change
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.school.models import School
from partners.visits.models import Ask

if TYPE_CHECKING:
    from partners.funding.grant_models import Grant


def owe_thanks(
    *,
    desk: Desk,
    partner: Partner,
    reason: str,
    base: date,
    gift: Gift | None = None,
    promise: Promise | None = None,
    ask: Ask | None = None,
    grant: Grant | None = None,
    school: School | None = None,
) -> Thanks:
    """Thanks arise on `base`: for a promise, for what came, for a grant, or for considering it."""
    with change(desk, gettext_noop("Thanks owed to %(partner)s"), partner=partner) as book:
        owed = Thanks(partner=partner, reason=reason, gift=gift, promise=promise, ask=ask, grant=grant, school=school)
        for name, day in thanks_days(desk, base, school.pk if school else None).items():
            setattr(owed, name, day)
        return book.add(owed)


def owe_thanks_for(*, desk: Desk, partner: Partner, gift: Gift, promises: Sequence[Promise] = ()) -> Thanks:
    """Thanks for what came. Where those for its promise were not said yet they become them: one thank-you does."""
    about: dict[str, Any] = {"reason": ThanksFor.GIFT, "gift": gift, "school": gift.school}
    with change(desk, gettext_noop("Thanks owed to %(partner)s"), partner=partner) as book:
        owed = Thanks.objects.owed().filter(reason=ThanksFor.PROMISE, promise__in=promises)
        before = owed.select_for_update().order_by("pk").first()
        if before is None:
            return owe_thanks(desk=desk, partner=partner, base=gift.day, **about)
        return book.update(before, promise=None, ask=None, **about, **thanks_days(desk, gift.day, gift.school_id))


def thanks_said(*, desk: Desk, thanks: Thanks, day: date, how: str = "") -> Thanks:
    """The letter went out, or it was said in person."""
    with change(desk, gettext_noop("Thanked %(partner)s"), partner=thanks.partner) as book:
        book.update(thanks)
        all_thanked(book, [thanks], day=day, how=how)
        return thanks


def all_thanked(book: Change, thanks: Sequence[Thanks], *, day: date, how: str) -> None:
    """All of them were said, in few statements, and with them those that are said along with them."""
    book.update_each([(owed, {"done_on": day, "how": how}) for owed in thanks])
    also = said_with(Gift.objects.filter(pk__in=[owed.gift_id for owed in thanks if owed.gift_id]))
    if also:
        held = Thanks.objects.owed().filter(pk__in=[owed.pk for owed in also]).select_for_update().order_by("pk")
        book.update_each([(owed, {"done_on": day, "how": how}) for owed in held])


def said_along(numbers: Sequence[int]) -> list[int]:
    """By number: which thanks are said along with these."""
    return [owed.pk for owed in said_with(Gift.objects.filter(thanks__in=numbers))]


def said_with(thanked: Iterable[Gift]) -> list[Thanks]:
    """What is thanked for along with these gifts: whatever else the same giver brought on the same day.

    Thanks for what came are also thanks for its promise, where those were not said yet: nobody is written to twice.
    """
    gifts = list(thanked)
    if not gifts:
        return []
    also = list(thanked_with(gifts).order_by("pk"))
    kept = Promise.objects.filter(deliveries__gift_line__gift__in=[*gifts, *(owed.gift_id for owed in also)])
    return also + list(Thanks.objects.owed().filter(promise__in=kept.order_by().values("pk")).order_by("pk"))
