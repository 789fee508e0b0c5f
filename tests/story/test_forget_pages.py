"""Forgetting a person through the pages: what is asked twice, what is shown first, and who may."""

from __future__ import annotations

from time import time

import pytest
from django.urls import reverse

from partners.directory.actions import add_contact, add_partner, edit_contact, edit_partner, remove_contact
from partners.ground.models import Event
from tests.dump import holding
from tests.ladder import UNKNOWN, enter, flat, status
from tests.story.forgetting import EMAIL, NAME, NEEDLES, PHONE, address, forget, sent, visited

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="+15555550101")


@pytest.fixture
def contact(desk, shop):
    contact = add_contact(desk=desk, partner=shop, name=NAME, phone=PHONE, email=EMAIL, role="owner")
    edit_contact(desk=desk, contact=contact, role="manager")
    return contact


def test_other_spellings_are_looked_for_when_they_are_typed(signed_in, desk, shop, contact):
    visited(desk, shop, contact, "Chepita has tubes for us")
    looked = sent(signed_in.get(address("contact", contact)), step="look", written="Chepita")
    page = signed_in.post(address("contact", contact), looked)
    assert "<mark>Chepita</mark>" in page.content.decode()
    second = signed_in.post(address("contact", contact), sent(page, step="ask", written="Chepita"))
    signed_in.post(address("contact", contact), sent(second, step="ask", sure="yes"))
    assert holding("Chepita") == []


def test_part_of_a_name_is_left_until_it_is_ticked(signed_in, desk, shop, contact):
    visit = visited(desk, shop, contact, "Brien is a street here; Núñez is not in")
    before = desk.visits.get().note
    key = f"visit-{visit.pk}-note"
    page = signed_in.get(address("contact", contact))
    assert key in sent(page)["shown"]
    assert key not in sent(page).get("tick", [])
    forget(signed_in, "contact", contact, and_also=[key])
    assert desk.visits.get().note == before.replace("Núñez", "(removed)")
    assert holding("Núñez") == []


def test_nothing_is_done_without_the_second_yes(signed_in, desk, contact):
    first = sent(signed_in.get(address("contact", contact)), step="ask")
    second = signed_in.post(address("contact", contact), first)
    third = signed_in.post(address("contact", contact), sent(second, step="ask"))
    assert "Tick the box if it shall be so" in flat(third)
    contact.refresh_from_db()
    assert contact.name == NAME


def test_what_came_up_meanwhile_is_shown_before_it_is_done(signed_in, desk, shop, contact):
    second = signed_in.post(address("contact", contact), sent(signed_in.get(address("contact", contact)), step="ask"))
    visited(desk, shop, contact, f"{NAME} called")
    third = signed_in.post(address("contact", contact), sent(second, step="ask", sure="yes"))
    assert "More was found" in flat(third)
    contact.refresh_from_db()
    assert contact.name == NAME


def test_only_a_person_can_be_forgotten(signed_in, shop):
    assert "is a place and not a person" in flat(signed_in.get(address("partner", shop)))


def test_only_a_keeper_forgets(client, omar, grace, contact):
    for member in (omar, grace):
        assert status(enter(client, member), address("contact", contact)) == 403


def test_unknown_rows_and_other_methods(signed_in, june):
    gone = reverse("story:forget-contact", args=[UNKNOWN])
    assert (status(signed_in, gone), status(signed_in, gone, "put")) == (404, 405)


def test_forgetting_twice_says_that_it_was_done(signed_in, desk, contact):
    forget(signed_in, "contact", contact)
    answer = signed_in.get(address("contact", contact), follow=True)
    assert "forgotten already" in flat(answer)


def test_somebody_whose_page_is_gone_is_forgotten_by_name_and_number(signed_in, desk, shop, contact):
    remove_contact(desk=desk, contact=contact)
    edit_partner(desk=desk, partner=shop, notes=f"{NAME} left in May, now at 555 555 0142")
    place = reverse("story:forget-named")
    written = "\n".join([NAME, "(555) 555-0142", EMAIL])
    looked = signed_in.post(place, {"step": "look", "written": written})
    second = signed_in.post(place, sent(looked, step="ask", written=written))
    answer = signed_in.post(place, sent(second, step="ask", sure="yes"))
    assert answer.status_code == 302
    assert holding(*NEEDLES) == []
    shop.refresh_from_db()
    assert shop.notes == "(removed) left in May, now at (removed)"
    assert Event.objects.latest("pk").is_scrubbed


def test_only_the_history_names_them(signed_in, desk, shop, contact):
    remove_contact(desk=desk, contact=contact)
    place = reverse("story:forget-named")
    second = signed_in.post(place, {"step": "ask", "written": NAME})
    assert "3 entries of the history lose the name" in flat(second)
    signed_in.post(place, sent(second, step="ask", sure="yes"))
    assert holding(NAME, "maria jose") == []
    assert str(Event.objects.latest("pk")) == "Somebody was forgotten at their request"


def test_nobody_named_is_nobody_forgotten(client, signed_in, desk, omar, contact):
    events = Event.objects.count()
    page = signed_in.post(reverse("story:forget-named"), {"step": "ask", "sure": "yes", "written": " "})
    assert "Their name, phone and e-mail" in flat(page)
    assert Event.objects.count() == events
    assert status(enter(client, omar), reverse("story:forget-named")) == 403


def test_who_saves_a_form_of_somebody_forgotten_meanwhile_is_told_so_and_nothing_comes_back(
    signed_in, desk, shop, contact
):
    place = reverse("directory:contact-edit", args=[contact.pk])
    opened = {"name": NAME, "role": "owner", "phone": PHONE, "seen": contact.version}
    forget(signed_in, "contact", contact)
    told = signed_in.post(place, opened)
    assert told.status_code == 409
    assert "Forgotten at their request" in flat(told)
    assert "Somebody left" in flat(signed_in.get(shop.get_absolute_url()))
    assert holding(NAME) == []


def test_a_form_that_was_open_meanwhile_brings_nobody_back_and_keeps_what_was_typed(signed_in, shop, contact):
    new = reverse("visits:visit-new")
    before = int(time()) - 1
    forget(signed_in, "contact", contact)
    typed = {"partner": NAME, "happened": "hello", "note": f"{NAME} has tubes"}
    refused = signed_in.post(new, {**typed, "opened": before})
    assert "Somebody asked to be forgotten since this page was opened." in flat(refused)
    assert f"{NAME} has tubes" in flat(refused)
    assert 'name="opened"' in flat(refused)
    assert holding("Núñez") == []
    assert signed_in.post(new, {**typed, "opened": int(time()) + 1}).status_code == 302


def test_a_gift_that_asks_who_that_is_says_also_that_somebody_was_forgotten(signed_in, desk):
    person = add_partner(desk=desk, name=NAME, kind="person")
    before = int(time()) - 1
    forget(signed_in, "partner", person)
    typed = {"source": "partner", "partner": NAME, "form": "goods", "line-0-description": "tubes", "opened": before}
    refused = flat(signed_in.post(reverse("gifts:gift-new"), typed))
    assert "Who is that? The name does not tell." in refused
    assert "Somebody asked to be forgotten since this page was opened." in refused


@pytest.mark.parametrize(
    ("name", "said"), [("visits:visit-new", {"happened": "hello"}), ("gifts:gift-new", {"source": "partner"})]
)
def test_nothing_is_written_down_for_who_was_forgotten_meanwhile(signed_in, desk, name, said):
    person = add_partner(desk=desk, name=NAME, kind="person")
    forget(signed_in, "partner", person)
    refused = signed_in.post(reverse(name), {"partner_pk": person.pk, **said})
    assert "They asked to be forgotten, so nothing is written down for them any more." in flat(refused)
