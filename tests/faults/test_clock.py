"""A clock that is moved back: what was done stays in its order, can be taken back, and no page fails."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.directory.actions import add_partner
from partners.ground.models import Event
from tests.whole_book import rows

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 10, 6, 16, tzinfo=UTC)
PAGES = ("agenda:today", "agenda:review", "story:history", "gifts:gift-list", "year:year", "program:device-list")


def log(client: Client, partner: int, happened: str, once: str) -> None:
    said = {"partner_pk": partner, "happened": happened, "what": "yarn", "once": once}
    assert client.post(reverse("visits:visit-new"), said).status_code == 302


@pytest.mark.parametrize("back", [timedelta(hours=1), timedelta(days=1), timedelta(days=800)])
def test_what_was_done_before_the_clock_went_back_is_taken_back_in_its_order(signed_in, desk, back):
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    before = rows(desk.program)
    with time_machine.travel(NOON, tick=False):
        log(signed_in, partner.pk, "yes", "first")
    with time_machine.travel(NOON - back, tick=False):
        log(signed_in, partner.pk, "maybe", "second")
        assert differences(desk.program) == []
        answers = {name: signed_in.get(reverse(name)).status_code for name in PAGES}
        assert set(answers.values()) == {200}, answers
        for once in ("second", "first"):
            event = Event.objects.get(once=once)
            signed_in.post(reverse("story:undo", args=[event.pk]))
            assert Event.objects.filter(undoes=event).exists(), once
    assert rows(desk.program) == before
    assert differences(desk.program) == []


def test_a_session_and_a_form_from_before_still_hold(signed_in, desk):
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    with time_machine.travel(NOON, tick=False):
        log(signed_in, partner.pk, "yes", "one token")
    with time_machine.travel(NOON - timedelta(days=3), tick=False):
        said = {"partner_pk": partner.pk, "happened": "yes", "what": "yarn", "once": "one token"}
        page = signed_in.post(reverse("visits:visit-new"), said, follow=True).content.decode()
    assert "That was saved already, once." in page
    assert desk.visits.count() == 1
