"""Verbs: all families of a school were thanked for what they gave, or are to be thanked on another day."""

from __future__ import annotations

from datetime import date

from django.utils.translation import gettext_noop

from partners.gifts.dates import families_since
from partners.gifts.models import Gift, GiftQuerySet
from partners.ground.changes import change
from partners.program.desk import Desk
from partners.school.models import School


def still_to_thank(desk: Desk, school: School) -> GiftQuerySet:
    """What came from the school's families that they were not thanked for, whenever it was written down."""
    found: GiftQuerySet = desk.gifts.families_to_thank().filter(school=school)
    return found


def due_to_families(desk: Desk, school: School) -> GiftQuerySet:
    """Of that, what is due by itself: what the due line and a notice for which nobody named a day are about."""
    return still_to_thank(desk, school).filter(families_due__gte=families_since(desk.day))


def families_thanked(*, desk: Desk, school: School, gifts: GiftQuerySet, day: date) -> int:
    """They were, for those of `gifts` that nobody had thanked them for. Returns how many these were."""
    with change(desk, gettext_noop("Thanked all families of %(school)s"), school=school) as book:
        rows = still_to_thank(desk, school).filter(pk__in=gifts.order_by().values("pk"))
        return book.update_many(rows.select_for_update(of=("self",)).order_by("pk"), families_thanked_on=day)


def thank_families_later(*, desk: Desk, school: School, due: date) -> None:
    """More is still to come, and one notice is for all of it."""
    words = gettext_noop("Thanks to the families of %(school)s moved to %(due)s")
    with change(desk, words, school=school, due=due) as book:
        rows = due_to_families(desk, school).select_for_update(of=("self",)).order_by("pk")
        book.update_many(rows, families_due=due, families_day_named=True)


def day_named_for(gift: Gift) -> date | None:
    """The day somebody named for the notice that thanks for the gift, too, where it is no sooner than its own."""
    if gift.families_due is None:
        return None
    named = Gift.objects.families_to_thank().filter(school=gift.school_id, families_day_named=True)
    later = named.filter(families_due__gt=gift.families_due)
    return later.order_by("-families_due").values_list("families_due", flat=True).first()
