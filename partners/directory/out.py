"""Partners as rows of a file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.models import Partner, PartnerQuerySet
from partners.directory.phones import national

HEADER = [
    _("Name"), _("Kind"), _("Business"), _("People"), _("Phone"), _("E-mail"), _("Web"), _("Street"), _("Town"),
    _("State"), _("ZIP code"), _("Best time to visit"), _("Ask this many days ahead"), _("How often they give"),
    _("When and how they decide"), _("How they want to be asked"), _("Don't ask before"), _("Never ask"),
    _("May we name them"), _("Last heard of"),
]  # fmt: skip
NOTES = _("Notes")


def partner_rows(partners: PartnerQuerySet, *, notes: bool) -> Iterator[list[Any]]:
    """One row a partner in the order of HEADER, read in batches; days as 2026-10-06."""
    for partner in partners.prefetch_related("contacts").iterator(chunk_size=1000):
        yield [*_row(partner), partner.notes] if notes else _row(partner)


def _row(partner: Partner) -> list[Any]:
    people = "; ".join(contact.name for contact in partner.contacts.all() if contact.left_on is None)
    return [
        partner.name,
        partner.get_kind_display(),
        partner.get_business_kind_display(),
        people,
        national(partner.phone) if partner.phone else "",
        partner.email,
        partner.web,
        partner.street,
        partner.city,
        partner.state,
        partner.postal_code,
        partner.best_time,
        partner.lead_days,
        partner.get_how_often_display() if partner.how_often else "",
        partner.decides,
        partner.wants,
        partner.rest_until,
        gettext("yes") if partner.never_ask else "",
        partner.get_may_name_display() if partner.may_name else "",
        partner.last_heard_on,
    ]
