"""The page after a visit was logged: what was saved, in words, and what comes next."""

from __future__ import annotations

import pytest
import time_machine

from partners.asking.gather import verdicts
from partners.directory.actions import add_contact, add_partner
from partners.gifts.models import Thanks
from partners.visits.actions import Stop, plan_outing
from partners.visits.models import Visit
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY

pytestmark = pytest.mark.django_db
NEW = "/visits/new/"


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", phone="(201) 555-0110")


@pytest.fixture
def log(signed_in, partner):
    def logged(happened, **values):
        return signed_in.post(NEW, {"partner_pk": partner.pk, "happened": happened, **values}, follow=True)

    return logged


SAID = [
    ("yes", {"what": "yarn", "quantity": 12, "collect_by": "2026-10-16", "collect_at": "15:30"},
     "Collect 12 yarn by Friday, October 16, 2026, 3:30 p.m."),
    ("yes", {"what": "frames", "amount": "50"}, "Collect $50.00, frames by Tuesday, October 13, 2026."),
    ("some", {"what": "yarn", "part": 3, "they_bring": "on"}, "They bring 3 yarn by Tuesday, October 13, 2026."),
    ("yes", {"our_promise": "a card"}, "We promised a card by Tuesday, October 13, 2026."),
    ("offered", {"offer": "tubes", "every": "two_weeks"}, "It comes again: every two weeks."),
    ("maybe", {"what": "yarn"}, "You asked for yarn: waiting."),
    ("maybe", {"what": "yarn"}, "Back there on Tuesday, October 13, 2026: yarn."),
    ("away", {}, "Back there on Tuesday, October 13, 2026: who decides was away."),
    ("no", {"what": "yarn"}, "Riverbend Garden Center rests until Friday, October 1, 2027."),
    ("no", {"from_now_on": "never"}, "Riverbend Garden Center is never asked again."),
    ("hello", {"sheet_left": "on"}, "The sheet was left there."),
]  # fmt: skip


@pytest.mark.parametrize(("happened", "values", "sentence"), SAID)
def test_it_says_what_was_saved(log, happened, values, sentence):
    assert sentence in flat(log(happened, **values))


def test_thanks_that_were_said_there_are_settled_from_it(signed_in, log):
    page = log("yes", what="yarn")
    thanks = Thanks.objects.get()
    address = f"/due/gifts.thanks/{thanks.pk}/"
    assert address in flat(page)
    signed_in.post(address, {"act": "done"})
    thanks.refresh_from_db()
    assert thanks.done_on == TUESDAY
    assert address not in flat(signed_in.get(Visit.objects.get().get_absolute_url()))


def test_the_number_to_call_is_that_of_who_was_met(signed_in, desk, partner, log):
    assert 'href="tel:+1-201-555-0110"' in flat(log("hello"))
    dana = add_contact(desk=desk, partner=partner, name="Dana Whitlock", phone="(201) 555-0199")
    assert "Call (201) 555-0199" in flat(log("hello", contact=dana.pk))


def test_a_visit_of_another_day_does_not_lead_into_todays_outing(desk, partner, log):
    other = add_partner(desk=desk, name="Bluebird Bakery")
    verdict = verdicts(desk, [other], TUESDAY)[other.pk]
    plan_outing(desk=desk, day=TUESDAY, stops=[Stop(other, None, verdict)])
    assert "Next place: Bluebird Bakery" in flat(log("hello"))
    assert "Next place" not in flat(log("hello", day="2026-10-05"))


def test_undo_takes_all_of_it_back_and_leads_to_an_empty_page(signed_in, log):
    page = log("yes", what="yarn")
    event = page.context["undo"]
    answer = signed_in.post(f"/changes/{event.pk}/undo/", {"next": "/visits/new/?anywhere"}, follow=True)
    assert answer.status_code == 200
    assert not Visit.objects.exists()


def test_the_ladder(client, june, grace, otto, log):
    address = log("hello").context["visit"].get_absolute_url()
    assert (status(client, address), status(client, address, "post")) == (200, 405)
    assert status(client, f"/visits/{UNKNOWN}/") == 404
    client.logout()
    assert status(client, address) == 302
    assert status(enter(client, grace), address) == 403
    assert status(enter(client, otto), address) == 404


@pytest.mark.parametrize(("name", "kind"), [("Alder Falls Public Library", "Library"), ("Ink & Quire", "Business")])
def test_it_says_what_a_new_place_was_taken_for(signed_in, name, kind):
    shown = signed_in.post(NEW, {"partner": name, "happened": "hello"}, follow=True)
    place = Visit.objects.get().partner
    assert f"taken for: <strong>{kind}</strong>" in flat(shown)
    assert f'href="/partners/{place.pk}/edit/#id_kind"' in flat(shown)


def test_of_a_known_place_it_says_no_kind(log):
    assert "taken for" not in flat(log("hello"))
