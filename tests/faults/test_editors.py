"""Several people who change one row at the same moment: each is saved, or told, and none is written over."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.directory.actions import add_partner
from partners.ground.models import Event
from partners.promises.models import Promise
from tests.faults.editors import SEEN

pytestmark = pytest.mark.django_db(transaction=True)
EDITORS = 6


def test_editors_of_one_row_all_come_through_and_each_builds_on_the_one_before(desk, june):
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    client = Client()
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    client.post(reverse("visits:visit-new"), {"partner_pk": partner.pk, "happened": "yes", "what": "yarn"})
    promise, begin = Promise.objects.get(), Barrier(EDITORS)
    page, move = (reverse(f"promises:promise-{name}", args=[promise.pk]) for name in ("detail", "move"))

    def edit(number: int) -> set[int]:
        own, statuses = Client(), set()
        own.cookies = client.cookies
        begin.wait(30)
        try:
            while 302 not in statuses:
                seen = SEEN.findall(own.get(page).content.decode())[0]
                due = promise.due + timedelta(days=1 + number)
                statuses.add(own.post(move, {"due": due, "seen": seen, "once": f"{number} on {seen}"}).status_code)
        finally:
            connection.close()
        return statuses

    with ThreadPoolExecutor(EDITORS) as pool:
        statuses = set().union(*pool.map(edit, range(EDITORS)))
    assert statuses <= {302, 409}
    promise.refresh_from_db()
    moves = [item for event in Event.objects.order_by("pk")[2:] for item in event.changes if item["model"] == "promise"]
    assert [item["before"]["version"] for item in moves] == list(range(1, 1 + EDITORS))
    assert (promise.version, moves[-1]["after"]["due"]) == (1 + EDITORS, promise.due.isoformat())
    assert differences(desk.program) == []
