"""Contact cards of the record: who is on them, and who may have them."""

from __future__ import annotations

from typing import Any

import pytest
import vobject
from django.test import Client
from django.urls import reverse

from partners.directory.models import Contact, Partner
from partners.program.models import Membership, Opened
from tests import people
from tests.ladder import enter, status

pytestmark = pytest.mark.django_db


@pytest.fixture
def garden(june: Membership) -> Partner:
    reach = {"phone": "+12015550116;ext=45", "email": "hello@example.org", "web": "riverbend.example.org"}
    return people.make_partner(june.program, **reach, city="Alder Falls", notes="Ask for the owner.")


def person(partner: Partner, name: str, **values: Any) -> Contact:
    return Contact.objects.create(program=partner.program, partner=partner, name=name, name_key=name.lower(), **values)


def body(answer: Any) -> str:
    assert answer["Content-Type"] == "text/vcard; charset=utf-8"
    return b"".join(answer.streaming_content).decode()


def test_a_partners_card_comes_with_those_of_the_people_there(signed_in: Client, garden: Partner) -> None:
    person(garden, "Mae Lin", role="owner")
    person(garden, "Old Owner", left_on=people.TUESDAY)
    text = body(signed_in.get(reverse("outreach:partner-card", args=[garden.pk])))
    shop, mae = vobject.readComponents(text)
    assert (shop.kind.value, shop.url.value, shop.fn.value) == ("org", "https://riverbend.example.org", garden.name)
    assert (mae.org.value, mae.title.value, mae.tel.value) == ([garden.name], "owner", "tel:+1-201-555-0116;ext=45")
    assert "Ask for" not in text


def test_a_person_has_a_card_with_their_own_number(signed_in: Client, garden: Partner) -> None:
    row = person(garden, "Mae Lin", phone="+12015550117")
    address = reverse("outreach:contact-card", args=[row.pk])
    first, again = (body(signed_in.get(address)) for _ in range(2))
    assert vobject.readOne(first).tel.value == "tel:+1-201-555-0117"
    assert first == again


def test_the_list_as_it_is_narrowed_is_one_file(signed_in: Client, garden: Partner) -> None:
    people.make_partner(garden.program, "Ada Quill", kind="person")
    address = reverse("outreach:partner-cards")
    assert [card.kind.value for card in vobject.readComponents(body(signed_in.get(address)))] == ["individual", "org"]
    (ada,) = vobject.readComponents(body(signed_in.get(address, {"kind": "person"})))
    assert (ada.n.value.family, ada.n.value.given) == ("Quill", "Ada")
    assert (
        f"{address}?kind=person"
        in signed_in.get(reverse("directory:partner-list"), {"kind": "person"}).content.decode()
    )


def test_who_may_not_read_partners_gets_no_card(
    client: Client, garden: Partner, grace: Membership, otto: Membership
) -> None:
    address = reverse("outreach:partner-card", args=[garden.pk])
    assert status(client, address) == 302
    assert status(enter(client, otto), address) == 404
    assert status(enter(client, grace), address) == 200
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.WISH_LIST])
    assert status(client, address) == 403
    assert status(client, address, "post") == 405
