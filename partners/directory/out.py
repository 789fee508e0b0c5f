"""Partners as rows of a file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.db.models import TextChoices
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.models import BusinessKind, HowOften, MayName, PartnerKind, PartnerQuerySet
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
    for partner in partners.with_people().iterator(chunk_size=1000):
        yield [*_row(partner), partner.notes] if notes else _row(partner)


def words(choices: type[TextChoices], value: str) -> str:
    """The label of a choice, "" for none. Django's own get_…_display hashes every label of the field for each row."""
    return str(choices(value).label) if value else ""


def _row(partner: Any) -> list[Any]:
    people = "; ".join(person.name for person in partner.present)
    return [
        partner.name,
        words(PartnerKind, partner.kind),
        words(BusinessKind, partner.business_kind),
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
        words(HowOften, partner.how_often),
        partner.decides,
        partner.wants,
        partner.rest_until,
        gettext("yes") if partner.never_ask else "",
        words(MayName, partner.may_name),
        partner.last_heard_on,
    ]
