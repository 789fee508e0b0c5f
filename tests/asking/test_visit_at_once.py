"""Two forms that arrive at the same moment: a double tap, and two people."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection
from django.test import Client

from partners.agenda.check_book import differences
from partners.directory.actions import add_partner
from partners.ground.models import Event
from partners.promises.models import Promise
from partners.visits.models import Ask, Visit

pytestmark = pytest.mark.django_db(transaction=True)
NEW = "/visits/new/"


def at_once(members, values):
    """Each member's answer to the same form, sent at the same moment."""
    clients = [Client() for _member in members]
    for client, member in zip(clients, members, strict=True):
        client.force_login(member.user, backend="django.contrib.auth.backends.ModelBackend")
    start = Barrier(len(members))

    def send(client, sent):
        try:
            start.wait(10)
            return client.post(NEW, sent)
        finally:
            connection.close()

    with ThreadPoolExecutor(len(members)) as pool:
        return [answer.result() for answer in [pool.submit(send, *one) for one in zip(clients, values, strict=True)]]


def test_a_double_tap_is_saved_once_and_both_lead_to_the_same_visit(desk, june):
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    said = {"partner_pk": partner.pk, "happened": "yes", "what": "yarn", "once": "one token"}
    first, second = at_once([june, june], [said, said])
    assert (Visit.objects.count(), Ask.objects.count(), Promise.objects.count()) == (1, 1, 1)
    assert first["Location"] == second["Location"] == Visit.objects.get().get_absolute_url()
    assert (Event.objects.filter(once="one token").count(), differences(desk.program)) == (1, [])


def test_two_people_at_one_place_are_both_kept(desk, june, omar):
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    said = {"partner_pk": partner.pk, "happened": "hello"}
    answers = at_once([june, omar], [{**said, "once": "junes"}, {**said, "once": "omars"}])
    assert [answer.status_code for answer in answers] == [302, 302]
    assert sorted(Visit.objects.values_list("by", flat=True)) == ["June", "Omar"]
    assert differences(desk.program) == []


def test_two_answers_to_one_ask_are_not_both_written_over_each_other(desk, june, omar):
    """The second one is told, or is an ask of its own where the first was through already."""
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    member = Client()
    member.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    member.post(NEW, {"partner_pk": partner.pk, "happened": "maybe", "what": "yarn"})
    said = {"partner_pk": partner.pk, "what": "yarn"}
    values = [{**said, "happened": "yes", "once": "junes"}, {**said, "happened": "no", "once": "omars"}]
    answers = at_once([june, omar], values)
    assert {answer.status_code for answer in answers} <= {302, 409}
    assert (Ask.objects.count(), Ask.objects.waiting().count()) == (Visit.objects.count() - 1, 0)
    assert differences(desk.program) == []
