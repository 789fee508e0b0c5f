"""The "Log a visit" page: who may open it, what it asks for, and what it makes of nonsense."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.directory.actions import add_contact, add_partner
from partners.directory.models import Contact, Partner
from partners.ground.models import Event
from partners.promises.models import Offer, Promise
from partners.visits.actions import plan_outing
from partners.visits.models import Ask, FollowUp, OutingStop, Visit
from partners.wish_list.models import Need
from tests.ladder import flat
from tests.people import TUESDAY, make_partner

pytestmark = pytest.mark.django_db

NEW = "/visits/new/"
WEEK_LATER = date(2026, 10, 13)


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="(201) 555-0110")


@pytest.fixture
def pots(program):
    return Need.objects.create(program=program, what="terracotta pots", unit="pots", quantity=60)


def said(partner=None, happened="hello", **values):
    where = {"partner_pk": partner.pk} if isinstance(partner, Partner) else {"partner": partner or ""}
    return {**where, "happened": happened, **values}


def errors(response):
    assert response.status_code == 200
    return response.context["form"].errors


def test_the_address_is_the_agreed_one():
    assert reverse("visits:visit-new") == NEW


def test_where_and_what_happened_are_enough(signed_in, partner):
    answer = signed_in.post(NEW, said(partner))
    visit = Visit.objects.get()
    assert (visit.partner, visit.day, visit.how, visit.by) == (partner, TUESDAY, "in_person", "June")
    assert answer["Location"] == reverse("asking:visit-saved", args=[visit.pk])


def test_nothing_said_says_what_is_missing_and_nothing_is_preset(signed_in, partner):
    answer = signed_in.post(NEW, {"note": "a word"})
    assert set(errors(answer)) == {"partner", "happened"}
    assert 'value="a word"' in answer.content.decode()
    assert answer.context["form"]["happened"].value() is None


def test_logged_out_is_sent_to_sign_in(client, june):
    assert client.get(NEW).status_code == 302
    assert client.post(NEW, said("Somewhere")).status_code == 302
    assert not Visit.objects.exists()


def test_a_guest_may_not(client, grace):
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert (client.get(NEW).status_code, client.post(NEW, said("Somewhere")).status_code) == (403, 403)


def test_a_teacher_may(client, omar, partner):
    client.force_login(omar.user, backend="django.contrib.auth.backends.ModelBackend")
    client.post(NEW, said(partner))
    assert Visit.objects.get().by == "Omar"


@pytest.mark.parametrize("method", ["put", "delete", "patch"])
def test_other_methods_are_refused(signed_in, method):
    assert getattr(signed_in, method)(NEW).status_code == 405


def test_another_programs_partner_is_not_found(signed_in, otto):
    theirs = make_partner(otto.program, "Their Place")
    assert signed_in.get(NEW, {"partner": theirs.pk}).status_code == 404
    answer = signed_in.post(NEW, said(theirs))
    assert errors(answer)["partner"] == ["That partner is not in your book. Type its name."]
    assert not Visit.objects.exists()


@pytest.mark.parametrize("name", ["need", "contact", "school", "stop"])
def test_another_programs_rows_are_refused_and_nothing_is_saved(signed_in, partner, otto, name):
    from partners.school.models import School
    from tests.rows import make_row

    model = {"need": Need, "contact": Contact, "school": School, "stop": OutingStop}[name]
    theirs = make_row(model, otto.program)
    assert name in errors(signed_in.post(NEW, said(partner, **{name: theirs.pk})))
    assert not Visit.objects.exists()


@pytest.mark.parametrize("address", ["?partner=999999", "?stop=999999", "?partner=abc", "?stop=-1", "?partner=٣"])
def test_an_unknown_number_is_not_found(signed_in, address):
    assert signed_in.get(NEW + address).status_code == 404


def test_opened_from_a_partner_it_knows_the_people_and_the_waiting_ask(signed_in, desk, partner, pots):
    add_contact(desk=desk, partner=partner, name="Dana Whitlock")
    signed_in.post(NEW, said(partner, "maybe", need=pots.pk))
    page = flat(signed_in.get(NEW, {"partner": partner.pk}))
    assert "Dana Whitlock" in page
    assert f'name="need" value="{pots.pk}" checked' in page


def test_the_next_place_of_todays_outing_is_picked(signed_in, desk, program, partner, pots):
    from partners.asking.gather import verdicts

    other = add_partner(desk=desk, name="Bluebird Bakery")
    known = verdicts(desk, [partner, other], TUESDAY, pots)
    outing = plan_outing(
        desk=desk, day=TUESDAY, stops=[(other, pots, known[other.pk]), (partner, pots, known[partner.pk])]
    )
    first, second = outing.stops.all()
    assert signed_in.get(NEW).context["picked"] == other
    signed_in.post(NEW, said(other, "yes", need=pots.pk, quantity=10))
    first.refresh_from_db()
    assert first.visit == Visit.objects.get()
    assert signed_in.get(NEW).context["picked"] == partner
    assert signed_in.get(NEW, {"stop": second.pk}).context["place"] == partner


def test_a_place_ticked_once_is_not_ticked_by_another_visit(signed_in, desk, partner):
    from partners.asking.gather import verdicts

    verdict = verdicts(desk, [partner], TUESDAY)[partner.pk]
    stop = plan_outing(desk=desk, day=TUESDAY, stops=[(partner, None, verdict)]).stops.get()
    signed_in.post(NEW, said(partner, stop=stop.pk))
    first = Visit.objects.get()
    signed_in.post(NEW, said(partner, stop=stop.pk))
    stop.refresh_from_db()
    assert (stop.visit, Visit.objects.count()) == (first, 2)


def test_yes_as_the_page_sends_it(signed_in, partner, pots):
    page = signed_in.get(NEW, {"partner": partner.pk})
    kept = {
        "collect_by": "2026-10-16",
        "collect_at": "15:30",
        "need": pots.pk,
        "quantity": "40",
        "back_on": "2026-10-13",
    }
    signed_in.post(NEW, said(partner, "yes", once=page.context["once_token"], sheet_left="on", **kept))
    promise = Promise.objects.get()
    assert (promise.quantity, promise.due, promise.due_hour.hour, promise.need) == (40, date(2026, 10, 16), 15, pots)
    assert (Visit.objects.get().sheet_left, FollowUp.objects.count()) == (True, 0)


def test_maybe_with_the_usual_day_is_no_day_that_they_named(signed_in, partner):
    signed_in.post(NEW, said(partner, "maybe", what="yarn", back_on="2026-10-13"))
    assert (FollowUp.objects.get().named_day, FollowUp.objects.get().due) == (False, WEEK_LATER)


def test_maybe_with_another_day_is_one_that_they_named(signed_in, partner):
    signed_in.post(NEW, said(partner, "maybe", what="yarn", back_on="2026-10-20"))
    assert (FollowUp.objects.get().named_day, FollowUp.objects.get().due) == (True, date(2026, 10, 20))


def test_what_belongs_to_another_answer_is_not_read(signed_in, partner, pots):
    """Without script every part of the page is there, with what was filled in beforehand."""
    filled = {
        "need": pots.pk,
        "quantity": 60,
        "collect_by": "2026-10-13",
        "back_on": "2026-10-13",
        "offer": "old frames",
    }
    signed_in.post(NEW, said(partner, "hello", **filled, from_now_on="never", our_promise="a card"))
    assert [model.objects.count() for model in (Ask, Promise, Offer, FollowUp)] == [0, 0, 0, 0]
    assert not Partner.objects.get().never_ask


def test_an_offer_of_something_on_the_wish_list_counts_for_it(signed_in, partner, pots):
    offered = {"offer": "Terracotta Pots", "offered": 12, "every": "month", "collect_by": "2026-10-09"}
    signed_in.post(NEW, said(partner, "offered", **offered))
    assert (Offer.objects.get().need, Offer.objects.get().quantity, Offer.objects.get().every) == (pots, 12, "month")


def test_money_is_promised_to_the_cent(signed_in, partner):
    signed_in.post(NEW, said(partner, "yes", what="frames", amount="1,250.50"))
    assert (Promise.objects.get().amount_cents, Promise.objects.get().quantity) == (125050, None)


def test_never_ask_again(signed_in, partner):
    signed_in.post(NEW, said(partner, "no", from_now_on="never", reason="head office says no"))
    assert Partner.objects.get().never_ask
    assert Ask.objects.get().reason == "head office says no"


def test_an_unknown_name_is_a_new_partner(signed_in):
    signed_in.post(NEW, said("Marigold Framing", contact_name="Pat Oduya"))
    assert (Partner.objects.get().name, Visit.objects.get().contact.name) == ("Marigold Framing", "Pat Oduya")


def test_a_known_name_typed_is_the_known_partner(signed_in, partner):
    signed_in.post(NEW, said("  riverbend GARDEN centér "))
    assert Visit.objects.get().partner == partner


def test_a_name_like_a_known_one_is_asked_about_and_nothing_is_lost(signed_in, partner):
    answer = signed_in.post(NEW, said("Riverbend Garden", "hello", note="By the river."))
    page = flat(answer)
    assert [one.partner for one in answer.context["likely"]] == [partner]
    assert 'value="By the river."' in page
    assert f'name="one_of" value="{partner.pk}"' in " ".join(page.split())
    assert 'value="Riverbend Garden"' in page
    assert not Visit.objects.exists()


def test_it_is_one_of_these(signed_in, partner):
    signed_in.post(NEW, said("Riverbend Garden", one_of=partner.pk))
    assert (Visit.objects.get().partner, Partner.objects.count()) == (partner, 1)


def test_no_a_new_place(signed_in, partner):
    signed_in.post(NEW, said("Riverbend Garden", new_place="Riverbend Garden"))
    assert Visit.objects.get().partner.name == "Riverbend Garden"


def test_typing_beside_the_place_that_was_picked_means_the_typed_one(signed_in, partner):
    values = said(partner) | {"partner": "Marigold Framing", "partner_was": partner.pk}
    signed_in.post(NEW, values)
    assert Visit.objects.get().partner.name == "Marigold Framing"


def test_somebody_of_another_place_is_told_and_nothing_is_saved(signed_in, desk, partner):
    other = add_contact(desk=desk, partner=add_partner(desk=desk, name="Bluebird Bakery"), name="Rosa Okafor")
    assert errors(signed_in.post(NEW, said(partner, contact=other.pk)))["contact"] == [
        "That person is at Bluebird Bakery."
    ]


def test_sent_twice_it_is_saved_once(signed_in, partner):
    values = said(partner, "yes", what="yarn", once="a token")
    first, second = signed_in.post(NEW, values), signed_in.post(NEW, values)
    assert (Visit.objects.count(), Promise.objects.count(), first["Location"]) == (1, 1, second["Location"])


def test_a_post_is_one_event_about_the_visit(signed_in, partner, pots):
    before = Event.objects.count()
    signed_in.post(NEW, said(partner, "yes", need=pots.pk, quantity=5, our_promise="a card", contact_name="Pat"))
    assert Event.objects.count() == before + 1
    assert Event.objects.latest("pk").about() == Visit.objects.get()


def test_a_post_without_the_cross_site_token_is_refused(june, partner):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    assert strict.post(NEW, said(partner)).status_code == 403


def test_the_page_takes_the_same_queries_with_many_partners(signed_in, program, django_assert_num_queries):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    def fill(first, count):
        for n in range(first, first + count):
            one = make_partner(program, f"Place {n}", last_heard_on=TUESDAY - timedelta(days=n % 90))
            Need.objects.create(program=program, what=f"thing {n}", quantity=n + 1)
            Contact.objects.create(program=program, partner=one, name=f"Person {n}", name_key=f"person {n}")
        return one

    few = fill(0, 3)
    with CaptureQueriesContext(connection) as counted:
        signed_in.get(NEW, {"partner": few.pk})
    many = fill(3, 60)
    with django_assert_num_queries(len(counted)):
        signed_in.get(NEW, {"partner": many.pk})


def test_a_teacher_of_one_school_logs_for_that_school(client, program, partner):
    from tests.people import make_member, make_school

    ridge = make_school(program, "North Ridge Elementary")
    make_school(program, "Millrace Elementary")
    member = make_member(program, "Ines", "teacher", school_ids=[ridge.pk])
    client.force_login(member.user, backend="django.contrib.auth.backends.ModelBackend")
    client.post(NEW, said(partner, "maybe", what="yarn"))
    assert Ask.objects.get().school == ridge
