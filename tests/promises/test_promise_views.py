"""Pages of promises and offers: what they show, their errors, who may open them, how each ends."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from partners.gifts.thanks_actions import owe_thanks
from partners.promises import actions
from partners.promises.models import Offer, Promise, Settled, Side
from tests import people

pytestmark = pytest.mark.django_db
NEW = reverse("promises:promise-new")
OFFER = reverse("promises:offer-new")


@pytest.fixture
def garden(program):
    return people.make_partner(program)


@pytest.fixture
def today(program):
    return people.make_desk(program, timezone.localdate())


@pytest.fixture
def pots(today, garden):
    return promised(today, garden)


def promised(desk, partner, side=Side.THEM, **values):
    given = {"what": "pots", "quantity": 60, "due": desk.day, "made_on": desk.day, **values}
    return actions.promise(desk=desk, partner=partner, side=side, **given)


def act(promise, code):
    return reverse("promises:promise-settle", args=[promise.pk, code])


def sign_in(client, member):
    client.force_login(member.user, backend="django.contrib.auth.backends.ModelBackend")


def typed(today, garden, **values):
    day = str(today.day)
    return {"partner": garden.name, "side": "them", "what": "pots", "due": day, "made_on": day, **values}


def test_the_page_says_who_promised_what_by_when(signed_in, pots):
    page = signed_in.get(pots.get_absolute_url()).content.decode()
    assert "60 pots" in page
    assert "Riverbend Garden Center promised it on" in page
    assert f"{reverse('gifts:gift-new')}?promise={pots.pk}" in page


def test_a_promise_of_either_side_is_written_down(signed_in, today, garden):
    signed_in.post(NEW, typed(today, garden, quantity="40", at_most="60", collect="on"))
    theirs = Promise.objects.get()
    assert (theirs.partner, theirs.quantity, theirs.at_most, theirs.collect) == (garden, 40, 60, True)
    signed_in.post(NEW, typed(today, garden, side="us", collect="on"))
    assert Promise.objects.latest("pk").collect is False


def test_the_only_school_is_chosen_already(signed_in, program):
    school = people.make_school(program)
    assert signed_in.get(NEW).context["form"]["school"].value() == school.pk


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        ({"partner": "Nobody here"}, "partner", "No partner of this name"),
        ({"what": ""}, "what", "required"),
        ({"at_most": "5"}, "quantity", "the smaller number"),
        ({"due": "1999-01-01"}, "due", "before the one it counts from"),
        ({"due": "2999-01-01"}, "due", "Is the year right?"),
        ({"made_on": "2999-01-01"}, "made_on", "still ahead"),
        ({"amount_cents": "12,5"}, "amount_cents", "two ways"),
    ],
)
def test_an_error_stands_at_its_field_and_what_was_typed_stays(signed_in, today, garden, wrong, field, words):
    answer = signed_in.post(NEW, typed(today, garden, unit="boxes", **wrong))
    assert words in str(answer.context["form"].errors[field])
    assert 'value="boxes"' in answer.content.decode()
    assert not Promise.objects.exists()


def test_the_range_the_wrong_way_round_is_said_in_plain_words(signed_in, today, garden):
    page = signed_in.post(NEW, typed(today, garden, quantity="60", at_most="40")).content.decode()
    assert "The larger number stands before the smaller one." in page


def test_a_double_press_saves_once(signed_in, today, garden):
    for _press in range(2):
        signed_in.post(NEW, typed(today, garden, once="the same"))
    assert Promise.objects.count() == 1


@pytest.mark.parametrize(
    ("code", "how", "words"),
    [
        ("that-was-all", Settled.THAT_WAS_ALL, "Nothing more is waited for."),
        ("never-came", Settled.NEVER_CAME, "Things change; Riverbend Garden Center stays a partner."),
    ],
)
def test_closing_it_kindly(signed_in, pots, code, how, words):
    answer = signed_in.post(act(pots, code), follow=True)
    pots.refresh_from_db()
    assert pots.settled_how == how
    assert words in answer.content.decode()
    signed_in.post(act(pots, "that-was-all"))
    pots.refresh_from_db()
    assert pots.settled_how == how


def test_a_promise_that_never_came_may_still_come(signed_in, today, pots):
    actions.never_came(desk=today, promise=pots, day=today.day)
    assert "It came after all" in signed_in.get(pots.get_absolute_url()).content.decode()


def test_moving_it(signed_in, today, pots):
    later = today.day + timedelta(days=7)
    url = reverse("promises:promise-move", args=[pots.pk])
    signed_in.post(url, {"due": str(later), "seen": pots.version})
    pots.refresh_from_db()
    assert pots.due == later
    assert signed_in.post(url, {"due": str(later), "seen": 1}).status_code == 409
    answer = signed_in.post(url, {"due": "1999-01-01", "seen": pots.version})
    assert answer.context["move"].errors["due"]


def test_handing_over_a_part_and_the_rest(signed_in, today, garden):
    ours = promised(today, garden, Side.US, what="seed packets")
    url = reverse("promises:promise-hand-over", args=[ours.pk])
    signed_in.post(url, {"quantity": "20", "part": "yes"})
    signed_in.post(url, {"quantity": "40", "note": "in a box"})
    ours.refresh_from_db()
    assert (ours.delivered, ours.settled_how) == (60, Settled.CAME)
    assert "in a box" in signed_in.get(ours.get_absolute_url()).content.decode()
    assert signed_in.post(url, {"quantity": "1"}).status_code == 404


def test_only_our_own_promise_is_handed_over_and_only_a_standing_one_skipped(signed_in, pots):
    assert signed_in.post(reverse("promises:promise-hand-over", args=[pots.pk])).status_code == 404
    assert signed_in.post(act(pots, "skip")).status_code == 404
    assert signed_in.post(act(pots, "anything")).status_code == 404


def test_thanks_for_the_promise_lead_to_their_note(signed_in, today, garden, pots):
    owed = owe_thanks(desk=today, partner=garden, reason="promise", base=today.day, promise=pots)
    page = signed_in.get(pots.get_absolute_url()).content.decode()
    assert reverse("outreach:document-prepare", args=["thanks-note", owed.pk]) in page


# Offers


def test_a_standing_offer_is_made_skipped_and_ended(signed_in, today, garden):
    first = today.day + timedelta(days=3)
    sent = {"partner": garden.name, "what": "tubes", "every": "week", "first_on": str(first), "hour": "15:30"}
    page = signed_in.post(OFFER, sent, follow=True).content.decode()
    assert "every week" in page
    assert "Skip this time" in page
    signed_in.post(act(Promise.objects.get(), "skip"))
    assert Promise.objects.open().count() == 1
    end = reverse("promises:offer-end", args=[Offer.objects.get().pk])
    signed_in.post(end)
    assert not Promise.objects.open().exists()
    assert "settled already" in signed_in.post(end, follow=True).content.decode()


def test_an_offer_that_ends_before_it_begins_is_refused(signed_in, today, garden):
    day = today.day + timedelta(days=3)
    sent = {"partner": garden.name, "what": "tubes", "first_on": str(day), "ends_on": str(today.day)}
    assert signed_in.post(OFFER, sent).context["form"].errors["ends_on"]


# Who may


def urls(pots):
    return [
        pots.get_absolute_url(),
        act(pots, "that-was-all"),
        reverse("promises:promise-move", args=[pots.pk]),
        reverse("promises:promise-hand-over", args=[pots.pk]),
    ]


def test_another_programs_and_unknown_promises_are_not_there(client, otto, pots):
    sign_in(client, otto)
    for url in urls(pots):
        assert client.post(url).status_code in (404, 405)
        assert client.get(url).status_code in (404, 405)
    assert client.get(reverse("promises:promise-detail", args=[pots.pk + 1])).status_code == 404
    assert client.get(f"{reverse('gifts:gift-new')}?promise={pots.pk}").status_code == 404


def test_a_guest_reads_only_what_is_opened_and_writes_nothing(client, grace, pots):
    sign_in(client, grace)
    assert client.get(pots.get_absolute_url()).status_code == 403
    assert [client.get(url).status_code for url in (NEW, OFFER)] == [403, 403]
    grace.opened = ["gifts"]
    grace.save()
    page = client.get(pots.get_absolute_url())
    assert page.status_code == 200
    assert "<form" not in page.content.decode().split("<main")[1].split("</main>")[0]
    assert client.post(act(pots, "that-was-all")).status_code == 403


def test_nobody_gets_in_logged_out_or_by_the_wrong_method(client, signed_in, pots):
    assert signed_in.get(act(pots, "that-was-all")).status_code == 405
    assert signed_in.post(pots.get_absolute_url()).status_code == 405
    client.logout()
    assert [client.get(url).status_code for url in (NEW, OFFER, pots.get_absolute_url())] == [302, 302, 302]


def test_the_page_asks_a_fixed_number_of_queries(signed_in, today, garden):
    ours = promised(today, garden, Side.US, quantity=600)
    actions.deliver(desk=today, promise=ours, day=today.day, quantity=1)
    first = asked(signed_in, ours)
    for _part in range(10):
        actions.deliver(desk=today, promise=ours, day=today.day, quantity=1)
    assert asked(signed_in, ours) == first <= 12


def asked(client, promise):
    with CaptureQueriesContext(connection) as queries:
        assert client.get(promise.get_absolute_url()).status_code == 200
    return len(queries)
