"""Where a partner stands now: its number may be that of one that was put together with another since."""

from __future__ import annotations

from typing import Any

from django.http import Http404

from partners.directory.models import Partner
from partners.ground.changes import MovedOn


def partner_at(desk: Any, pk: int) -> Partner:
    """The partner of this number. Raises MovedOn with the one that took its place, or Http404."""
    partner: Partner | None = desk.partners.filter(pk=pk).first()
    if partner is not None:
        return partner
    kept = desk.partners.filter(former_partners__was=pk).first()
    if kept is None:
        raise Http404
    raise MovedOn(kept)
