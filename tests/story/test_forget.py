"""Forgetting a person: afterwards nothing in the database tells who it was, and the counts are the same."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time

import pytest
from django.contrib.sessions.backends.db import SessionStore
from django.urls import reverse

from outreach.documents import leave_behind
from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.directory.actions import add_contact, add_partner, edit_contact, edit_partner, remove_contact
from partners.ground.changes import change
from partners.ground.models import Event
from partners.ground.undo import CannotUndo
from partners.helpers.session_models import Session, Turn
from partners.letters.actions import gone_out, keep_words
from tests.dump import holding
from tests.ladder import flat
from tests.outreach.sheets import SHEET
from tests.people import TUESDAY, make_desk
from tests.story.forgetting import EMAIL, NAME, NEEDLES, PHONE, add_helper, forget, visited

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="+15555550101")


@pytest.fixture
def contact(desk, shop):
    contact = add_contact(desk=desk, partner=shop, name=NAME, phone=PHONE, email=EMAIL, role="owner")
    edit_contact(desk=desk, contact=contact, role="manager")
    return contact


def test_a_contact_is_gone_from_rows_history_keys_and_notes(signed_in, desk, shop, contact):
    visited(desk, shop, contact, "Maria Jose Nunez O'Brien: call (555) 555-0142, or write MJ.NUNEZ@example.org")
    edit_partner(desk=desk, partner=shop, notes=f"{NAME}'s sister teaches. Ask Núñez first.")
    assert holding(*NEEDLES)
    forget(signed_in, "contact", contact)
    assert holding(*NEEDLES) == []
    assert differences(desk.program) == []
    assert desk.visits.get().contact_id == contact.pk


def test_a_helper_is_gone_and_the_hours_stay(signed_in, desk):
    helper = add_helper(desk, room="3-Birch", note="Núñez, O’Brien family", skills="sews", cleared_by="office")
    with change(desk, "session") as book:
        session = book.add(Session(day=TUESDAY, starts=time(13), ends=time(15), place="art room"))
        book.add(Turn(session=session, helper=helper, came=True, minutes=120))
    forget(signed_in, "helper", helper)
    kept = desk.helpers.get()
    assert (kept.name, kept.room, kept.skills, kept.cleared_by) == ("", "", "", "")
    assert kept.forgotten_on is not None
    assert desk.turns.get().minutes == 120
    assert holding(*NEEDLES, "3-Birch", "sews") == []


def test_a_partner_who_is_a_person_is_gone_and_never_asked_again(signed_in, desk):
    partner = add_partner(
        desk=desk, name=NAME, kind="person", phone=PHONE, email=EMAIL, street="7 Quince Lane", notes="prefers mornings"
    )
    visited(desk, partner, None, "at home")
    forget(signed_in, "partner", partner)
    partner.refresh_from_db()
    assert partner.never_ask
    assert desk.visits.filter(partner=partner).exists()
    assert holding(*NEEDLES, "Quince", "prefers mornings") == []
    assert differences(desk.program) == []


def test_what_they_were_called_before_is_forgotten_too(signed_in, desk, shop, contact):
    edit_contact(desk=desk, contact=contact, name="Marisol Quesada")
    visited(desk, shop, contact, "Marisol Quesada was there")
    forget(signed_in, "contact", contact)
    assert holding("Quesada", *NEEDLES) == []


def test_a_removed_row_in_the_history_is_scrubbed_like_one_that_stands(signed_in, desk, shop, contact):
    again = add_contact(desk=desk, partner=shop, name=NAME, phone=PHONE)
    remove_contact(desk=desk, contact=again)
    forget(signed_in, "contact", contact)
    assert holding(*NEEDLES) == []


def test_somebody_else_of_the_same_name_stays(signed_in, desk, contact):
    other = add_helper(desk, phone="", phone_key="", email="")
    forget(signed_in, "contact", contact)
    assert desk.helpers.get(pk=other.pk).name == NAME
    added = Event.objects.get(about_model="helper", about_pk=other.pk)
    assert NAME in str(added)
    assert not added.is_scrubbed


def test_the_same_person_written_down_twice_is_forgotten_in_both_places(signed_in, desk, contact):
    helper = add_helper(desk)
    forget(signed_in, "contact", contact)
    assert desk.helpers.get(pk=helper.pk).name == ""
    assert holding(*NEEDLES) == []


def test_a_shops_own_number_is_left_alone_unless_it_is_ticked(signed_in, desk, shop, contact):
    edit_partner(desk=desk, partner=shop, phone=PHONE)
    forget(signed_in, "contact", contact)
    shop.refresh_from_db()
    assert shop.phone == PHONE
    assert "partners_contact.phone" not in holding("5555550142")


def handed_over(desk, shop, contact_name):
    facts = replace(SHEET, contact=contact_name)
    letter = keep_words(
        desk=desk, document="leave-behind", title="A request to Riverbend", words={"to": contact_name},
        language="en", partner=shop,
    )  # fmt: skip
    return gone_out(desk=desk, letter=letter, state="handed_over", day=TUESDAY, pdf=leave_behind.draw(facts))


def test_a_sheet_that_names_them_goes_and_the_register_keeps_that_it_went_out(signed_in, desk, shop, contact):
    named, other = handed_over(desk, shop, NAME), handed_over(desk, shop, "Luis Prado")
    forget(signed_in, "contact", contact)
    named.refresh_from_db()
    assert (named.document, named.day, named.state) == ("leave-behind", TUESDAY, "handed_over")
    assert named.is_removed
    assert "removed on request" in flat(signed_in.get(named.get_absolute_url()))
    assert signed_in.get(reverse("letters:letter-pdf", args=[named.pk])).status_code == 404
    other.refresh_from_db()
    assert not other.is_removed
    assert desk.sheets.count() == 2
    assert differences(desk.program) == []


def test_older_changes_about_them_can_no_longer_be_taken_back(signed_in, desk, contact):
    added = Event.objects.order_by("pk")[1]
    forget(signed_in, "contact", contact)
    added.refresh_from_db()
    with pytest.raises(CannotUndo, match="forgotten at their request"):
        take_back(desk=desk, event=added)
    with pytest.raises(CannotUndo, match="forgotten at their request"):
        take_back(desk=desk, event=Event.objects.latest("pk"))
    assert "it stays" in flat(signed_in.get(reverse("story:history")))


def test_changes_that_do_not_name_them_are_taken_back_as_ever(signed_in, desk, shop, contact):
    other = add_partner(desk=desk, name="Bluebird Bakery")
    edit_partner(desk=desk, partner=other, city="Eastbrook")
    event = Event.objects.latest("pk")
    forget(signed_in, "contact", contact)
    take_back(desk=desk, event=event)
    other.refresh_from_db()
    assert other.city == ""


def test_a_message_that_waits_for_somebody_is_dropped(signed_in, desk, contact):
    store = SessionStore()
    store["_messages"] = f'[["__json_message",0,25,"{NAME} is written down."]]'
    store.save()
    forget(signed_in, "contact", contact)
    assert "_messages" not in SessionStore(store.session_key)
    assert holding(*NEEDLES) == []


def test_another_programs_book_is_not_touched(signed_in, desk, contact, otto):
    theirs = add_partner(desk=make_desk(otto.program), name=NAME, kind="person")
    forget(signed_in, "contact", contact)
    theirs.refresh_from_db()
    assert theirs.name == NAME


def test_dates_of_the_register_stay(signed_in, desk):
    helper = add_helper(desk, stopped_on=date(2026, 9, 1))
    forget(signed_in, "helper", helper)
    assert desk.helpers.get().stopped_on == date(2026, 9, 1)


def test_a_contact_named_by_a_part_keeps_the_keys_sound(signed_in, desk, shop, contact):
    first_name = add_contact(desk=desk, partner=shop, name="María-José")
    forget(signed_in, "contact", contact, and_also=[f"contact-{first_name.pk}-name"])
    first_name.refresh_from_db()
    assert first_name.name == "(removed)"
    assert differences(desk.program) == []
    assert holding("maria jose") == []


def test_sqlite_wipes_what_is_overwritten(db):
    from django.db import connection

    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            assert cursor.execute("PRAGMA secure_delete").fetchone() == (1,)
