"""Writing partners and the people there down, and changing what is written."""

from __future__ import annotations

from datetime import date

import pytest
import time_machine
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.directory.actions import add_contact, add_partner, edit_partner
from partners.directory.kind_named import kind_named
from partners.directory.models import Contact, Partner
from partners.ground.models import Event
from partners.visits.actions import record_visit
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import make_desk, make_partner
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def book_agrees(program):
    """Whatever was done, every stored fact is what the record says; word without a visit is told here by hand."""
    yield
    if Event.objects.exists():
        assert [told for told in differences(program) if "last_heard_on" not in told] == []


NEW = reverse("directory:partner-new")


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", person="Dana Whitlock", lead_days=45)


def edit_url(partner) -> str:
    return reverse("directory:partner-edit", args=[partner.pk])


def everything(partner, **values) -> dict[str, object]:
    """What the browser sends of the edit form, with other values."""
    shown = {
        "name": partner.name, "kind": "business", "counted_per": "school", "fiscal_year_starts": "1", "lead_weeks": "7",
        "seen": partner.version, "once": "form-token",
    }  # fmt: skip
    return shown | values


def test_a_name_is_enough(signed_in, program):
    answer = signed_in.post(NEW, {"name": "Tamarack Hardware", "kind": "business"})
    partner = Partner.objects.get()
    assert answer["Location"] == partner.get_absolute_url()
    assert (partner.program, partner.name_key, partner.created_by.first_name) == (program, "tamarack hardware", "June")


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Alder Falls Public Library", "library"), ("Millrace PTA", "family_group"),
        ("Tamarack Foundation", "grantmaker"),
        ("Alder Falls Historical Society", "civic_group"), ("North Ridge Middle School", "civic_group"),
        ("Mill Street Theater", "arts_group"), ("Mr. Okafor", "person"), ("Tamarack Hardware", "business"),
        ("Copper Kettle Dance School", "business"), ("Art Supply Library", "business"),
        ("Mrs Miller's Café", "business"),
    ],
)  # fmt: skip
def test_a_name_tells_the_kind_where_nobody_said_it(name, kind):
    """Judged by hand."""
    assert kind_named(name) == kind


def test_a_kind_that_was_said_counts_and_a_namesake_is_named(signed_in, partner):
    said = flat(signed_in.post(NEW, {"name": "Alder Falls Library", "kind": ""}, follow=True))
    assert "Alder Falls Library is in the book (Library)." in said
    twice = {"name": "Riverbend garden center", "kind": "civic_group", "city": "Alder Falls", "new_one": "yes"}
    page = flat(signed_in.post(NEW, twice, follow=True))
    other = Partner.objects.latest("pk")
    assert other.kind == "civic_group"
    assert "Another partner has this name" in page
    assert other.get_absolute_url() in flat(signed_in.get(partner.get_absolute_url()))


def test_an_address_pasted_in_one_line_is_put_into_its_fields(signed_in):
    whole = "12 Elm Street, Alder Falls, OH 45999"
    signed_in.post(NEW, {"name": "Tamarack Hardware", "kind": "business", "street": whole})
    row = Partner.objects.get()
    assert (row.street, row.city, row.state, row.postal_code) == ("12 Elm Street", "Alder Falls", "OH", "45999")


def test_a_new_partner_is_one_change_that_can_be_taken_back(signed_in, program, june):
    before = rows(program)
    signed_in.post(NEW, {"name": "Tamarack Hardware", "kind": "business", "person": "Zoë Núñez"})
    assert (Contact.objects.get().name, Event.objects.count()) == ("Zoë Núñez", 1)
    undo_newest(make_desk(program, user=june.user))
    assert rows(program) == before


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "☕ !!"}, "name"),
        ({"name": "x" * 121}, "name"),
        ({"phone": "12"}, "phone"),
        ({"phone": "2015550123201555012320"}, "phone"),
        ({"kind": "castle"}, "kind"),
    ],
)
def test_an_error_stands_at_its_field_and_nothing_typed_is_lost(signed_in, values, field):
    answer = signed_in.post(NEW, {"name": "Tamarack", "kind": "business", "city": "Alder Falls", **values})
    assert list(answer.context["form"].errors) == [field]
    assert 'value="Alder Falls"' in flat(answer)
    assert not Partner.objects.exists()


def test_a_phone_number_is_kept_normalised_and_shown_as_at_home(signed_in):
    signed_in.post(NEW, {"name": "Tamarack", "kind": "business", "phone": "201.555.0123 x 45"})
    partner = Partner.objects.get()
    assert (partner.phone, partner.phone_key) == ("+12015550123;ext=45", "+12015550123")
    assert 'value="(201) 555-0123 ext. 45"' in flat(signed_in.get(edit_url(partner)))


def test_a_likely_duplicate_is_warned_of_and_saved_only_when_it_is_new(signed_in, partner):
    sent = {"name": "Riverbend Garden Centre", "kind": "business"}
    warned = flat(signed_in.post(NEW, sent))
    assert "Is it one of these?" in warned
    assert f'href="{partner.get_absolute_url()}"' in warned
    assert Partner.objects.count() == 1
    signed_in.post(NEW, {**sent, "new_one": "yes"})
    assert Partner.objects.count() == 2


def test_a_form_sent_twice_saves_once(signed_in):
    for _again in range(2):
        answer = signed_in.post(NEW, {"name": "Tamarack", "kind": "business", "new_one": "yes", "once": "token"})
    assert (Partner.objects.count(), answer.status_code) == (1, 302)


def test_a_changed_partner_can_be_taken_back(signed_in, program, partner, june):
    before = rows(program)
    signed_in.post(edit_url(partner), everything(partner, name="Riverbend Gardens", how_often="calendar_year"))
    stored = Partner.objects.get()
    assert (stored.name, stored.name_key, stored.how_often) == (
        "Riverbend Gardens", "riverbend gardens", "calendar_year"
    )  # fmt: skip
    undo_newest(make_desk(program, user=june.user))
    assert rows(program) == before


@pytest.mark.parametrize(("weeks", "days"), [("7", 45), ("6", 42), ("0", 0), ("", None)])
def test_weeks_ahead_are_kept_in_days_and_untouched_days_stay(signed_in, partner, weeks, days):
    signed_in.post(edit_url(partner), everything(partner, lead_weeks=weeks))
    assert Partner.objects.get().lead_days == days


def test_an_edit_with_an_error_keeps_what_was_typed_under_the_stored_name(signed_in, partner):
    page = flat(signed_in.post(edit_url(partner), everything(partner, name="", decides="In January")))
    assert "Change Riverbend Garden Center" in page
    assert 'value="In January"' in page


def test_two_people_editing_see_both_versions(signed_in, partner, desk):
    seen = partner.version
    edit_partner(desk=desk, partner=partner, city="Eastbrook")
    answer = signed_in.post(edit_url(partner), everything(partner, seen=seen, city="Alder Falls"))
    page = flat(answer)
    assert answer.status_code == 409
    assert "Alder Falls" in page
    assert "Eastbrook" in page
    assert Partner.objects.get().city == "Eastbrook"


def test_saving_nothing_new_offers_no_undo_of_something_else(signed_in, partner):
    signed_in.post(edit_url(partner), everything(partner))
    answer = signed_in.post(edit_url(partner), everything(Partner.objects.get(), once="another"), follow=True)
    assert "is changed." in flat(answer)
    assert [message.extra_tags for message in answer.context["messages"]][-1] == ""


def contact_url(name, pk) -> str:
    return reverse(f"directory:{name}", args=[pk])


def test_a_person_is_added_changed_and_leaves(signed_in, partner):
    signed_in.post(contact_url("contact-new", partner.pk), {"name": "Zoë Núñez", "role": "owner", "once": "1"})
    contact = Contact.objects.get(name="Zoë Núñez")
    sent = {"name": "Zoë Núñez", "role": "manager", "seen": contact.version, "once": "2"}
    signed_in.post(contact_url("contact-edit", contact.pk), sent)
    signed_in.post(contact_url("contact-left", contact.pk), {"once": "3"})
    contact.refresh_from_db()
    assert (contact.role, contact.left_on) == ("manager", date(2026, 10, 6))
    assert "zoe" not in Partner.objects.get().people_key


def test_a_person_without_a_name_is_refused(signed_in, partner):
    answer = signed_in.post(contact_url("contact-new", partner.pk), {"name": "", "role": "owner"})
    assert list(answer.context["form"].errors) == ["name"]
    assert 'value="owner"' in flat(answer)


def test_a_person_nobody_met_can_be_taken_out_and_one_named_by_a_visit_cannot(signed_in, partner, desk):
    met, other = Contact.objects.get(), add_contact(desk=desk, partner=partner, name="Rosa")
    record_visit(desk=desk, partner=partner, happened="hello", day=desk.day, contact=met)
    signed_in.post(contact_url("contact-remove", other.pk), {"once": "1"})
    answer = signed_in.post(contact_url("contact-remove", met.pk), {"once": "2"}, follow=True)
    assert "Visits name this person" in flat(answer)
    assert list(Contact.objects.all()) == [met]


def test_two_people_editing_one_person_are_told(signed_in, partner):
    contact = Contact.objects.get()
    sent = {"name": "Dana", "seen": contact.version}
    assert signed_in.post(contact_url("contact-edit", contact.pk), {**sent, "once": "1"}).status_code == 302
    assert (
        signed_in.post(contact_url("contact-edit", contact.pk), {**sent, "name": "D", "once": "2"}).status_code == 409
    )


def test_a_rest_is_set_and_ended_from_the_page(signed_in, partner):
    signed_in.post(contact_url("partner-rest", partner.pk), {"until": "2027-10-01", "why": "they gave", "once": "1"})
    assert Partner.objects.get().rest_until == date(2027, 10, 1)
    signed_in.post(contact_url("rest-end", partner.pk), {"once": "2"})
    assert Partner.objects.get().rest_until is None


@pytest.mark.parametrize("until", ["2026-10-06", "soon", ""])
def test_a_rest_needs_a_day_to_come(signed_in, partner, until):
    answer = signed_in.post(contact_url("partner-rest", partner.pk), {"until": until, "why": "kept"})
    assert list(answer.context["form"].errors) == ["until"]
    assert 'value="kept"' in flat(answer)


def test_never_ask_and_back(signed_in, partner):
    signed_in.post(contact_url("partner-never-ask", partner.pk), {"once": "1"})
    assert Partner.objects.get().never_ask
    signed_in.post(contact_url("partner-never-ask", partner.pk), {"never": "no", "once": "2"})
    assert not Partner.objects.get().never_ask


WRITING = [
    ("partner-edit", "get"), ("partner-edit", "post"), ("partner-rest", "get"), ("partner-rest", "post"),
    ("rest-end", "post"), ("partner-never-ask", "post"), ("contact-new", "get"), ("contact-new", "post"),
    ("contact-edit", "get"), ("contact-edit", "post"), ("contact-left", "post"), ("contact-remove", "post"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "method"), WRITING)
def test_who_may_not_write_is_turned_away(client, june, grace, otto, partner, name, method):
    pk = Contact.objects.get().pk if name.startswith("contact-") and name != "contact-new" else partner.pk
    address = contact_url(name, pk)
    assert status(client, address, method) == 302
    assert status(enter(client, grace), address, method) == 403
    assert status(enter(client, otto), address, method) == 404
    assert status(enter(client, june), contact_url(name, UNKNOWN), method) == 404
    assert status(client, address, "delete") == 405


def test_a_new_partner_is_for_who_writes(client, june, grace):
    assert status(client, NEW) == 302
    assert status(enter(client, grace), NEW) == 403
    assert status(enter(client, june), NEW) == 200
    assert status(client, NEW, "delete") == 405


@pytest.mark.parametrize(
    ("name", "queries"), [("partner-edit", 4), ("partner-rest", 4), ("contact-new", 4), ("contact-edit", 5)]
)
def test_forms_open_in_a_fixed_number_of_queries(signed_in, program, partner, name, queries, django_assert_num_queries):
    for number in range(30):
        make_partner(program, f"Shop {number}")
    pk = Contact.objects.get().pk if name == "contact-edit" else partner.pk
    with django_assert_num_queries(queries):
        signed_in.get(contact_url(name, pk))
