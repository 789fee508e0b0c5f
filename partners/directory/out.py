"""Partners as rows of a file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.db.models import TextChoices
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.models import BusinessKind, CountedPer, HowOften, MayName, PartnerKind, PartnerQuerySet
from partners.directory.phones import national

HEADER = [
    _("Name"), _("Kind"), _("Business"), _("People"), _("Phone"), _("E-mail"), _("Web"), _("Street"), _("Town"),
    _("State"), _("ZIP code"), _("Best time to visit"), _("Ask this many days ahead"), _("How often they give"),
    _("When and how they decide"), _("How they want to be asked"), _("Don't ask before"), _("Never ask"),
    _("May we name them"), _("Last heard of"),
]  # fmt: skip
PRIVATE = [
    _("A branch"), _("How they count"), _("Their fiscal year begins in month"), _("Why not before"),
    _("Naming asked on"), _("Notes"),
]  # fmt: skip


def partner_rows(partners: PartnerQuerySet, *, private: bool) -> Iterator[list[Any]]:
    """One row a partner in the order of HEADER, then of PRIVATE for who writes; read in batches."""
    for partner in partners.with_people().iterator(chunk_size=1000):
        yield [*_row(partner), *_private(partner)] if private else _row(partner)


def words(choices: type[TextChoices], value: str) -> str:
    """The label of a choice, "" for none. Django's own get_…_display hashes every label of the field for each row."""
    return str(choices(value).label) if value else ""


def phone_words(stored: str) -> str:
    return national(stored) if stored else ""


def ticked(value: bool | None) -> str:
    """What is ticked, or not; nothing for "no", so that a column of ticks is read at a glance."""
    return gettext("yes") if value else ""


def _row(partner: Any) -> list[Any]:
    people = "; ".join(person.name for person in partner.present)
    return [
        partner.name,
        words(PartnerKind, partner.kind),
        words(BusinessKind, partner.business_kind),
        people,
        phone_words(partner.phone),
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
        ticked(partner.never_ask),
        words(MayName, partner.may_name),
        partner.last_heard_on,
    ]


def _private(partner: Any) -> list[Any]:
    return [
        ticked(partner.branch),
        words(CountedPer, partner.counted_per),
        partner.fiscal_year_starts,
        partner.rest_why,
        partner.may_name_asked_on,
        partner.notes,
    ]
