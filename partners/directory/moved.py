"""Where a partner stands now: its number may be that of one that was put together with another since."""

from __future__ import annotations

from typing import Any

from django.http import Http404

from partners.directory.models import Partner
from partners.ground.changes import MovedOn


def partner_at(desk: Any, pk: int) -> Partner:
    """The partner of this number. Raises MovedOn with the one that took its place, or Http404."""
    partner = partner_or_kept(desk, pk)
    if partner is None:
        raise Http404
    if partner.pk != pk:
        raise MovedOn(partner)
    return partner


def partner_or_kept(desk: Any, pk: int) -> Partner | None:
    """The partner of this number, or the one that took its place; None where there never was one."""
    partner: Partner | None = desk.partners.filter(pk=pk).first()
    if partner is not None:
        return partner
    # Asked one after the other: joined, the database would read every partner.
    kept = desk.former_partners.filter(was=pk).values_list("partner_id", flat=True)[:1]
    now: Partner | None = desk.partners.filter(pk__in=list(kept)).first()
    return now
