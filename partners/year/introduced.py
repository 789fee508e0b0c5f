"""To whom somebody who takes over introduces themself: with whom something stands, and who gave lately."""

from __future__ import annotations

from datetime import timedelta

from django.db.models import Q, QuerySet

from partners.directory.models import Partner, PartnerKind
from partners.program.desk import Desk

LATELY_DAYS = 730
"""Two years: who gave before that hears of the new teacher at the next visit (common practice)."""


def to_introduce(desk: Desk) -> QuerySet[Partner]:
    """Whoever is never to be asked is left in peace, unless something they or we promised is open."""
    since = desk.day - timedelta(days=LATELY_DAYS)
    promised = desk.promises.open().order_by().values("partner")
    gave = desk.gifts.from_partners().filter(day__gte=since).order_by().values("partner")
    traded = desk.trades.going_on().filter(agreed_on__gte=since).order_by().values("partner")
    granted = desk.grants.going_on().filter(asked_on__isnull=False).order_by().values("partner")
    lately = Q(pk__in=gave) | Q(pk__in=traded) | Q(pk__in=granted)
    found: QuerySet[Partner] = desk.partners.filter(Q(pk__in=promised) | (lately & Q(never_ask=False)))
    return found.exclude(kind=PartnerKind.FAMILY_GROUP).order_by("name_key", "pk")
