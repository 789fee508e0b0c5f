"""The address that says whether the site can work."""

from __future__ import annotations

from unittest import mock

import pytest
from django.db import OperationalError
from django.test import Client, override_settings

from partners.config import health

pytestmark = pytest.mark.django_db


@pytest.fixture
def applied(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(health, "is_pending", lambda: False)


def test_a_site_that_can_work_says_ok_without_asking_who(client: Client, applied: None) -> None:
    answer = client.get("/health/")
    assert (answer.status_code, answer.content) == (200, b"ok\n")
    assert "no-store" in answer["Cache-Control"]
    assert not client.cookies


def test_migrations_that_wait_are_not_ok(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(health, "is_pending", lambda: True)
    assert client.get("/health/").status_code == 503


def test_a_database_that_does_not_answer_is_not_ok_and_nothing_is_told(client: Client) -> None:
    with mock.patch.object(health, "is_pending", side_effect=OperationalError("no server at 192.0.2.7")):
        answer = client.get("/health/")
    assert (answer.status_code, answer.content) == (503, b"not ok\n")


@override_settings(SECURE_SSL_REDIRECT=True)
def test_it_is_asked_from_within_without_tls(client: Client, applied: None) -> None:
    assert client.get("/health/").status_code == 200
    assert client.get("/sign-in/").status_code == 301


def test_it_takes_no_form(client: Client, applied: None) -> None:
    assert client.post("/health/").status_code == 405
