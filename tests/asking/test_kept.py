"""What a phone keeps, and what becomes of the forms it sends later."""

from __future__ import annotations

from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.gifts.models import Gift
from partners.program.models import Membership, Role
from partners.promises.actions import promise
from partners.promises.models import Promise, Side
from partners.visits.models import Visit
from tests.ladder import enter, flat, status
from tests.people import make_desk, make_partner, make_program

pytestmark = pytest.mark.django_db
NEW, KEPT, PAGES, STATE = "/visits/new/", "/kept/", "/kept/pages/", "/kept/state/"
VISIT = {"partner": "Bluebird Bakery", "happened": "hello", "day": "2026-10-05", "once": "a-token"}


def sent_later(client: Client, member: Membership, address: str = NEW, on: str = "2026-10-05", **typed: Any) -> Any:
    """As the phone sends what its person filled in on that day."""
    said = {"Kept-User": str(member.user_id), "Kept-Program": str(member.program_id), "Kept-Day": on}
    return client.post(address, typed or VISIT, headers=said)


def state(client: Client, member: Membership, *tokens: str) -> dict[str, Any]:
    answer = client.get(STATE, {"program": member.program_id, "once": tokens})
    return answer.json()


def test_a_visit_of_last_night_is_saved_once_as_of_last_night(signed_in: Client, june: Membership) -> None:
    with time_machine.travel("2026-10-06 07:30 -0400", tick=False):
        first = sent_later(signed_in, june, on="2026-10-05", **{**VISIT, "day": "", "happened": "maybe"})
        again = sent_later(signed_in, june, on="2026-10-05", **{**VISIT, "day": "", "happened": "maybe"})
        told = state(signed_in, june, "a-token", "never sent")
    visit = Visit.objects.get()
    assert (first.status_code, again.status_code, visit.day.isoformat()) == (302, 302, "2026-10-05")
    assert visit.partner.follow_ups.get().base == visit.day
    assert (told["who"], told["writes"]) == (str(june.user_id), True)
    assert told["saved"] == {"a-token": {"words": "Visit to Bluebird Bakery logged", "url": visit.get_absolute_url()}}


def test_nobody_sends_what_somebody_else_filled_in(client: Client, june: Membership, omar: Membership) -> None:
    assert sent_later(enter(client, omar), june).status_code == 403
    assert not Visit.objects.exists()


def test_it_goes_to_the_program_in_which_it_was_filled_in(client: Client, june: Membership) -> None:
    other = Membership.objects.create(program=make_program("Stone Quay Art"), user=june.user, role=Role.TEACHER)
    enter(client, june).post(reverse("program:program-choose", args=[other.program_id]))
    assert sent_later(client, june).status_code == 302
    assert Visit.objects.get().program_id == june.program_id
    assert client.session["program"] == other.program_id


def test_who_may_write_no_more_is_refused_and_told(client: Client, june: Membership, omar: Membership) -> None:
    enter(client, omar)
    Membership.objects.filter(pk=omar.pk).update(role=Role.GUEST)
    assert (sent_later(client, omar).status_code, state(client, omar)["writes"]) == (403, False)
    Membership.objects.filter(pk=omar.pk).delete()
    assert (sent_later(client, omar).status_code, state(client, omar)["writes"]) == (403, False)


def test_a_delivery_that_was_ticked_yesterday_came_yesterday(signed_in: Client, june: Membership) -> None:
    desk = make_desk(june.program)
    made = promise(
        desk=desk, partner=make_partner(june.program), side=Side.THEM, what="pots", quantity=4, due=desk.day,
        made_on=desk.day,
    )  # fmt: skip
    address = reverse("agenda:settle", kwargs={"slug": "promises.theirs", "pk": made.pk})
    with time_machine.travel("2026-10-09 07:30 -0400", tick=False):
        sent_later(signed_in, june, address, "2026-10-08", act="done", once="tick")
        sent_later(signed_in, june, address, "2026-10-08", act="done", once="tick")
        assert "tick" in state(signed_in, june, "tick")["saved"]
    assert Gift.objects.get().day.isoformat() == "2026-10-08"
    assert Promise.objects.get(side=Side.THEM).settled_on is not None


def test_a_page_that_is_fetched_to_be_kept_takes_no_message_away(signed_in: Client, june: Membership) -> None:
    signed_in.post(reverse("program:device-others"))
    assert "signed out everywhere" not in flat(signed_in.get(NEW, headers={"Keep-For-Later": "yes"}))
    assert "signed out everywhere" in flat(signed_in.get(NEW))


def test_the_pages_that_are_kept_are_about_the_places_and_promises_of_now(signed_in: Client, june: Membership) -> None:
    partner = make_partner(june.program, last_heard_on="2026-10-01")
    desk = make_desk(june.program)
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False):
        made = promise(desk=desk, partner=partner, side=Side.THEM, what="pots", due=desk.day, made_on=desk.day)
        begun = state(signed_in, june, "none")["begun"]
        kept = signed_in.get(PAGES).json()["pages"]
        assert {KEPT, NEW, f"{NEW}?partner_pk={partner.pk}", f"/gifts/new/?promise={made.pk}", "/"} <= set(kept)
        for address in kept:
            page = signed_in.get(address, headers={"Keep-For-Later": "yes"})
            assert f'data-owner="{june.user_id}-{june.program_id}-{begun}"' in page.content.decode()


def test_the_steps_of_what_is_kept(client: Client, grace: Membership, otto: Membership) -> None:
    assert {status(client, address) for address in (KEPT, PAGES, STATE)} == {302}
    enter(client, grace)
    assert (status(client, KEPT), status(client, PAGES), status(client, STATE)) == (403, 403, 200)
    assert state(client, otto, "any")["saved"] == {}
    assert {status(client, address, "post") for address in (KEPT, PAGES, STATE)} == {405}
