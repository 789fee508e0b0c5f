"""No page reads a whole program to show a part of it: the steps SQLite takes do not grow with the book.

Steps are counted and not timed, so that the finding is the same on every machine. An index that knows only the program,
or an order that no index has, leads through all of its rows.
"""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from partners.config.large_book import load_large
from partners.directory.models import Partner
from partners.program.models import User

SMALL, LARGE = 1000, 10_000
PAGES = ("agenda:today", "agenda:review", "directory:partner-list", "visits:visit-new", "story:history")
# A page may be fuller and an index a level deeper. To walk through one table takes a hundred times the steps.
MOST_GROWTH = 4


def steps(client: Client, address: str, data: dict[str, Any] | None = None) -> int:
    """How many steps of SQLite's machine one request takes."""
    taken = 0

    def step() -> None:
        nonlocal taken
        taken += 10

    connection.connection.set_progress_handler(step, 10)
    answer = client.post(address, data) if data else client.get(address)
    connection.connection.set_progress_handler(None, 0)
    assert answer.status_code in (200, 302), address
    return taken


def works(client: Client) -> dict[str, int]:
    """The steps of each page, of a partner's page, and of saving a visit there."""
    partner = Partner.objects.filter(program=client.get("/").wsgi_request.desk.program).order_by("-pk")[3]
    told = {"partner_pk": partner.pk, "happened": "maybe", "what": "pots"}
    return {
        **{name: steps(client, reverse(name)) for name in PAGES},
        "a partner": steps(client, partner.get_absolute_url()),
        "a visit": steps(client, reverse("visits:visit-new"), told),
        "typing a name": steps(client, reverse("directory:partner-suggest") + "?q=yarn"),
    }


@pytest.mark.django_db
@pytest.mark.skipif("connection.vendor != 'sqlite'", reason="counts the steps of SQLite")
def test_a_book_ten_times_as_large_takes_hardly_more_steps() -> None:
    found = []
    for rows in (SMALL, LARGE):
        name, _password = load_large(rows, timezone.localdate())
        client = Client()
        client.force_login(User.objects.get(username=name), backend="django.contrib.auth.backends.ModelBackend")
        found.append(works(client))
    small, large = found
    assert {name: (small[name], taken) for name, taken in large.items() if taken > MOST_GROWTH * small[name]} == {}
