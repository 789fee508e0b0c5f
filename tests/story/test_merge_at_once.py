"""A partner is put together with another while somebody writes on the one that goes: nothing points nowhere."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test import Client

from partners.agenda.check_book import differences
from partners.asking import views
from partners.directory.actions import add_partner
from partners.directory.models import Partner
from partners.program.models import Membership
from partners.story.merge import merge
from partners.visits.models import Visit
from tests.ladder import enter, flat
from tests.people import make_desk

pytestmark = pytest.mark.django_db(transaction=True)


def test_who_logs_a_visit_at_a_partner_that_goes_that_moment_is_told_and_nothing_points_nowhere(
    client: Client, june: Membership, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = make_desk(june.program, user=june.user)
    kept, other = (add_partner(desk=own, name=name) for name in ("Riverbend Garden Center", "River Bend"))
    log = views.log_visit

    def merged_before(**said: Any) -> Visit:
        merge(desk=own, kept=kept, other=other)
        return log(**said)

    monkeypatch.setattr(views, "log_visit", merged_before)
    said = {"partner_pk": other.pk, "happened": "yes", "what": "yarn"}
    told = enter(client, june).post("/visits/new/", said)
    assert (told.status_code, "put together with another" in flat(told)) == (409, True)
    assert (Visit.objects.count(), Partner.objects.get()) == (0, kept)
    connection.check_constraints()
    monkeypatch.setattr(views, "log_visit", log)
    assert client.post("/visits/new/", said).status_code == 302
    assert (Visit.objects.get().partner, differences(own.program)) == (kept, [])
