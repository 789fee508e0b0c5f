"""Partners and the people there as contact cards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from outreach.feeds.cards import Card
from outreach.gathering.free_day import uid_of
from partners.directory.models import Contact, Partner, PartnerKind, PartnerQuerySet
from partners.directory.phones import tel_link
from partners.program.desk import Desk
from partners.story.partner_page import web_link

# Somebody, and no organization.
PEOPLE = frozenset({PartnerKind.PERSON, PartnerKind.COLLEAGUE})
AT_A_TIME = 1000


def cards_of(desk: Desk, partners: PartnerQuerySet) -> Iterator[Card]:
    """Each partner, then who is there; read in batches."""
    for partner in partners.with_people().iterator(chunk_size=AT_A_TIME):
        yield partner_card(desk, partner)
        people: Any = partner.present  # type: ignore[attr-defined]
        yield from (contact_card(desk, person, partner) for person in people)


def partner_card(desk: Desk, partner: Partner) -> Card:
    is_person = partner.kind in PEOPLE
    return Card(
        uid=uid_of(desk, partner.pk, "partner"),
        name=partner.name,
        is_person=is_person,
        organization="" if is_person else partner.name,
        tel=tels(partner.phone),
        email=partner.email,
        web=web_link(partner),
        **place(partner),
    )


def contact_card(desk: Desk, person: Contact, partner: Partner) -> Card:
    """With the partner's number where the person has none of their own."""
    return Card(
        uid=uid_of(desk, person.pk, "contact"),
        name=person.name,
        is_person=True,
        organization="" if partner.kind in PEOPLE else partner.name,
        role=person.role,
        tel=tels(person.phone or partner.phone),
        email=person.email,
        **place(partner),
    )


def tels(stored: str) -> tuple[str, ...]:
    link = tel_link(stored) if stored else ""
    return (link,) if link else ()


def place(partner: Partner) -> dict[str, str]:
    return {name: getattr(partner, name) for name in ("street", "city", "state", "postal_code")}
