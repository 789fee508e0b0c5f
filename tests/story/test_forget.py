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
from partners.helpers.models import Helper
from partners.helpers.session_models import Session, Turn
from partners.letters.actions import gone_out, keep_words
from partners.visits.actions import record_visit
from tests.dump import holding
from tests.ladder import UNKNOWN, enter, flat, status
from tests.outreach.sheets import SHEET
from tests.people import TUESDAY, make_desk
from tests.whole_site.pages import Page

pytestmark = pytest.mark.django_db

NAME, PHONE, EMAIL = "María-José Núñez O’Brien", "+15555550142", "mj.nunez@example.org"
NEEDLES = ("Núñez", "O’Brien", "maria jose", "5555550142", EMAIL)


def address(kind, row):
    return reverse(f"story:forget-{kind}", args=[row.pk])


def sent(answer, **more):
    """What the page's own form sends."""
    forms = [form for form in Page.read(answer.content.decode()).forms if "written" in form.sent]
    return {**forms[0].sent, **more}


def forget(client, kind, row, *, but=(), and_also=()):
    """Both pages, as somebody goes through them; `but` are boxes that are cleared, `and_also` boxes that are ticked."""
    first = sent(client.get(address(kind, row)), step="ask")
    first["tick"] = [key for key in [*first.get("tick", []), *and_also] if key not in but]
    second = client.post(address(kind, row), first)
    assert "story/forget_sure.html" in [template.name for template in second.templates]
    return client.post(address(kind, row), sent(second, step="ask", sure="yes"))


def add_helper(desk, name=NAME, **values):
    with change(desk, "Helper %(helper)s added", helper=name) as book:
        reached = {"phone": PHONE, "phone_key": PHONE, "email": EMAIL, "name_key": "maria jose nunez obrien"}
        return book.add(Helper(name=name, **{**reached, **values}))


@pytest.fixture
def shop(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="+15555550101")


@pytest.fixture
def contact(desk, shop):
    contact = add_contact(desk=desk, partner=shop, name=NAME, phone=PHONE, email=EMAIL, role="owner")
    edit_contact(desk=desk, contact=contact, role="manager")
    return contact


def visited(desk, shop, contact, note):
    return record_visit(desk=desk, partner=shop, happened="hello", day=TUESDAY, contact=contact, note=note)


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


def test_other_spellings_are_looked_for_when_they_are_typed(signed_in, desk, shop, contact):
    visited(desk, shop, contact, "Chepita has tubes for us")
    looked = sent(signed_in.get(address("contact", contact)), step="look", written="Chepita")
    page = signed_in.post(address("contact", contact), looked)
    assert "<mark>Chepita</mark>" in page.content.decode()
    second = signed_in.post(address("contact", contact), sent(page, step="ask", written="Chepita"))
    signed_in.post(address("contact", contact), sent(second, step="ask", sure="yes"))
    assert holding("Chepita") == []


def test_a_removed_row_in_the_history_is_scrubbed_like_one_that_stands(signed_in, desk, shop, contact):
    again = add_contact(desk=desk, partner=shop, name=NAME, phone=PHONE)
    remove_contact(desk=desk, contact=again)
    forget(signed_in, "contact", contact)
    assert holding(*NEEDLES) == []


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


def test_another_programs_book_is_not_touched(signed_in, desk, contact, otto):
    theirs = add_partner(desk=make_desk(otto.program), name=NAME, kind="person")
    forget(signed_in, "contact", contact)
    theirs.refresh_from_db()
    assert theirs.name == NAME


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
