"""What can be done to partners: each verb writes one event, and its undo puts everything back."""

from __future__ import annotations

from datetime import date

import pytest
from django.core import serializers

from partners.agenda.check_book import differences
from partners.directory import actions
from partners.directory.models import Contact, Partner
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.ground.undo import undo
from tests.people import make_partner

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def book_agrees(program):
    """Whatever was done, every stored fact is what the record says; word without a visit is told here by hand."""
    yield
    assert [told for told in differences(program) if "last_heard_on" not in told] == []


def dump() -> list[dict]:
    """Every partner and contact as stored, without what keeps count of changes."""
    rows = [*Partner.objects.order_by("pk"), *Contact.objects.order_by("pk")]
    kept = serializers.serialize("python", rows)
    for row in kept:
        for name in ("version", "updated_at", "updated_by", "created_at"):
            row["fields"].pop(name)
    return kept


def assert_undone(desk, before):
    undo(desk, Event.objects.latest("pk"))
    assert dump() == before


def test_a_new_partner_needs_only_a_name_and_carries_its_keys(desk):
    before = dump()
    partner = actions.add_partner(desk=desk, name="Café Über & Søn", phone="(201) 555-0123", web="www.example.org/x")
    assert (partner.name_key, partner.phone_key) == ("cafe uber and son", "+12015550123")
    assert (partner.web_key, partner.address_key) == ("example.org", "")
    assert Event.objects.count() == 1
    assert_undone(desk, before)


def test_editing_a_partner_makes_its_keys_again(desk):
    partner = make_partner(desk.program)
    before = dump()
    actions.edit_partner(
        desk=desk, partner=partner, name="Bluebird Bakery", street="12 North Main Street", city="Alder Falls"
    )
    assert Partner.objects.get().name_key == "bluebird bakery"
    assert Partner.objects.get().address_key.startswith("12 n main st|")
    assert_undone(desk, before)


def test_an_edit_on_an_old_version_is_refused(desk):
    partner = make_partner(desk.program)
    actions.edit_partner(desk=desk, partner=partner, seen=1, city="Alder Falls")
    with pytest.raises(ChangedMeanwhile):
        actions.edit_partner(desk=desk, partner=partner, seen=1, city="Elsewhere")
    assert Partner.objects.get().city == "Alder Falls"


def test_a_rest_is_never_shortened_by_another(desk):
    partner = make_partner(desk.program)
    before = dump()
    actions.rest(desk=desk, partner=partner, until=date(2027, 10, 1), why="they gave")
    actions.rest(desk=desk, partner=partner, until=date(2027, 1, 1), why="no reply")
    stored = Partner.objects.get()
    assert (stored.rest_until, stored.rest_why) == (date(2027, 10, 1), "they gave")
    assert Event.objects.count() == 1
    assert_undone(desk, before)


def test_a_rest_is_ended_by_naming_no_day(desk):
    partner = make_partner(desk.program, rest_until=date(2027, 10, 1), rest_why="they gave")
    before = dump()
    actions.rest(desk=desk, partner=partner, until=None)
    assert (Partner.objects.get().rest_until, Partner.objects.get().rest_why) == (None, "")
    assert_undone(desk, before)


@pytest.mark.parametrize("never", [True, False])
def test_never_ask_is_set_and_taken_back(desk, never):
    partner = make_partner(desk.program, never_ask=not never)
    before = dump()
    actions.never_ask(desk=desk, partner=partner, never=never)
    assert Partner.objects.get().never_ask is never
    assert_undone(desk, before)


def test_last_heard_keeps_the_latest_day(desk):
    partner = make_partner(desk.program)
    before = dump()
    actions.heard(desk=desk, partner=partner, day=date(2026, 10, 6))
    actions.heard(desk=desk, partner=partner, day=date(2026, 9, 1))
    assert Partner.objects.get().last_heard_on == date(2026, 10, 6)
    assert_undone(desk, before)


def test_what_a_verb_works_out_is_not_stopped_by_somebodys_edit(desk):
    partner, same = make_partner(desk.program), Partner.objects.get()
    actions.edit_partner(desk=desk, partner=same, city="Alder Falls")
    actions.heard(desk=desk, partner=partner, day=date(2026, 10, 6))
    assert Partner.objects.get().last_heard_on == date(2026, 10, 6)


def test_a_contact_is_found_by_name_until_the_day_it_left(desk):
    partner = make_partner(desk.program)
    contact = actions.add_contact(desk=desk, partner=partner, name="Zoë Núñez", role="owner")
    assert list(Partner.objects.search("zoe nunez")) == [partner]
    before = dump()
    actions.edit_contact(desk=desk, contact=contact, left_on=date(2026, 10, 1))
    assert not Partner.objects.search("zoe nunez").exists()
    assert_undone(desk, before)


def test_a_contact_added_by_mistake_is_undone(desk):
    partner = make_partner(desk.program)
    before = dump()
    actions.add_contact(desk=desk, partner=partner, name="Zoë Núñez")
    assert_undone(desk, before)


def test_a_removed_contact_comes_back_with_undo(desk):
    partner = make_partner(desk.program)
    contact = actions.add_contact(desk=desk, partner=partner, name="Rosa Okafor")
    before = dump()
    actions.remove_contact(desk=desk, contact=contact)
    assert (Contact.objects.count(), Partner.objects.get().people_key) == (0, "")
    assert_undone(desk, before)


def test_what_is_done_to_a_contact_is_about_its_partner(desk):
    partner = make_partner(desk.program)
    actions.add_contact(desk=desk, partner=partner, name="Rosa Okafor")
    assert Event.objects.get().about() == partner


def test_many_long_names_still_fit_the_index(desk):
    partner = make_partner(desk.program, "𐐷" * 120)
    for number in range(8):
        actions.add_contact(desk=desk, partner=partner, name=f"{'𠀀' * 110} {number}")
    stored = Partner.objects.get()
    assert 1500 < len(stored.people_key.encode()) <= 1600
    assert len(stored.name_key.encode()) + len(stored.people_key.encode()) < 2600
