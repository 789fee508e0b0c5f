"""Forms of partners and the people there."""

from __future__ import annotations

from partners.directory.partner_field import PartnerField

__all__ = ["PartnerField"]
