"""Whose form was kept on a phone, and of which day; and the worker that keeps it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.contrib.staticfiles import finders
from django.test import Client

from partners.program.kept import Kept, kept_form
from partners.program.models import Membership
from partners.program.worker import FILES, SCRIPT, content, site
from tests.people import TUESDAY


@pytest.mark.parametrize(
    ("said", "counts_as"),
    [
        (TUESDAY - timedelta(days=1), TUESDAY - timedelta(days=1)),
        (TUESDAY - timedelta(days=60), TUESDAY - timedelta(days=60)),
        (TUESDAY - timedelta(days=61), TUESDAY),
        (TUESDAY + timedelta(days=1), TUESDAY),
        (None, TUESDAY),
    ],
)
def test_a_kept_form_counts_as_one_of_the_day_it_was_filled_in(said: date | None, counts_as: date) -> None:
    assert Kept("1", "1", said).as_of(TUESDAY) == counts_as


@pytest.mark.parametrize("day", ["", "2026-13-01", "yesterday", "2026-02-30", "٢٠٢٦-٠١-٠١x"])
def test_a_day_that_is_none_is_today(day: str) -> None:
    kept = kept_form({"Kept-User": "1", "Kept-Program": "x" * 40, "Kept-Day": day})
    assert kept is not None
    assert (kept.as_of(TUESDAY), kept.program_pk) == (TUESDAY, 0)


def test_a_form_that_comes_from_its_page_says_nothing() -> None:
    assert kept_form({"User-Agent": "Kept-User"}) is None


def test_every_file_that_a_page_needs_without_a_signal_is_there() -> None:
    assert [name for name in (SCRIPT, *FILES) if not finders.find(name)] == []
    assert all(content(name) for name in FILES)


@pytest.mark.django_db
def test_the_worker_knows_the_addresses_and_rules_over_the_whole_site(client: Client, june: Membership) -> None:
    answer = client.get("/worker.js")
    assert answer["Content-Type"].startswith("text/javascript")
    assert "default-src 'self'" in answer["Content-Security-Policy"]
    script = answer.content.decode()
    assert script.startswith("const SITE = {")
    assert all(address in script for address in site()["addresses"].values())
