"""What a person is told when the book itself cannot be read or written, and what stays a fault of the code."""

from __future__ import annotations

import errno
import re
from unittest import mock

import psycopg
import pytest
from django.db import DatabaseError, IntegrityError, InterfaceError, OperationalError
from django.test import Client
from django.urls import reverse

from partners.asking import views
from partners.config.trouble import SENTENCES, kind_of
from partners.ground.models import Event
from partners.program.models import Membership


def of_sqlite(code: int) -> OperationalError:
    """What Django raises for a result code of SQLite."""
    cause = OperationalError()
    cause.sqlite_errorcode = code
    return because(OperationalError("in SQLite's words"), cause)


def of_postgresql(state: str) -> DatabaseError:
    return because(DatabaseError("in PostgreSQL's words"), psycopg.errors.lookup(state)())


def because(problem, cause):
    problem.__cause__ = cause
    return problem


# The codes are those of sqlite.org/rescode.html (the extended ones carry the plain one in their last eight bits) and of
# Appendix A of PostgreSQL's manual.
@pytest.mark.parametrize(("problem", "kind"), [
    (of_sqlite(5), "busy"), (of_sqlite(517), "busy"), (of_sqlite(8), "read_only"), (of_sqlite(1032), "read_only"),
    (of_sqlite(13), "full"), (of_sqlite(14), "gone"), (of_sqlite(778), "damaged"), (of_sqlite(11), "damaged"),
    (of_postgresql("57P01"), "gone"), (of_postgresql("08006"), "gone"), (of_postgresql("40P01"), "busy"),
    (of_postgresql("53100"), "full"), (of_postgresql("25006"), "read_only"), (of_postgresql("55P03"), "busy"),
    (because(OperationalError(), psycopg.OperationalError("server closed the connection")), "gone"),
    (because(InterfaceError(), psycopg.InterfaceError("the connection is closed")), "gone"),
    (OSError(errno.ENOSPC, "No space left on device"), "full"), (OSError(errno.EROFS, "Read-only"), "read_only"),
])  # fmt: skip
def test_trouble_of_the_book_is_known_by_its_code(problem, kind):
    assert kind_of(problem) == kind


# "no such table", a constraint, a syntax error and a missing file are faults of the code.
@pytest.mark.parametrize("problem", [
    of_sqlite(1), of_postgresql("23505"), of_postgresql("42601"), IntegrityError(), OSError(errno.ENOENT, "No file"),
    ValueError(), None,
])  # fmt: skip
def test_a_fault_of_the_code_stays_one(problem):
    assert kind_of(problem) is None


@pytest.fixture
def refusing(monkeypatch: pytest.MonkeyPatch) -> mock.Mock:
    refuses = mock.Mock(side_effect=of_sqlite(13))
    monkeypatch.setattr(views, "log_visit", refuses)
    return refuses


@pytest.fixture
def told(june: Membership) -> Client:
    client = Client(raise_request_exception=False)
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def test_what_was_typed_is_kept_and_can_be_sent_again(told, desk, refusing, monkeypatch):
    typed = {"partner": "Riverbend <Garden>", "happened": "hello", "note": "Two\nlines", "once": "one token"}
    answer = told.post(reverse("visits:visit-new"), typed)
    page = answer.content.decode()
    assert (answer.status_code, answer["Retry-After"]) == (503, "30")
    assert str(SENTENCES["full"]) in page
    assert "<Garden>" not in page
    monkeypatch.undo()
    hidden = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', page)
    again = {name: value.replace("&lt;", "<").replace("&gt;", ">") for name, value in hidden}
    assert {name: again[name] for name in typed} == typed
    answers = [told.post(reverse("visits:visit-new"), again) for _time in range(2)]
    assert [answer.status_code for answer in answers] == [302, 302]
    assert Event.objects.filter(once="one token").count() == 1


def test_a_page_that_cannot_be_read_says_so(told):
    with mock.patch("partners.program.middleware.desk_for", side_effect=of_postgresql("57P01")):
        answer = told.get(reverse("agenda:today"))
    assert answer.status_code == 503
    assert str(SENTENCES["gone"]) in answer.content.decode()
    assert "<form" not in answer.content.decode()


def test_a_password_is_not_repeated(client, june):
    client = Client(raise_request_exception=False)
    with (
        mock.patch("django.contrib.auth.authenticate", side_effect=of_sqlite(5)),
        mock.patch("django.contrib.auth.forms.authenticate", side_effect=of_sqlite(5)),
    ):
        answer = client.post(reverse("program:sign-in"), {"username": "june", "password": "lavender ink"})
    assert answer.status_code == 503
    assert "lavender" not in answer.content.decode()
    assert "go back in your browser" in answer.content.decode()


def test_a_fault_of_the_code_has_its_own_page(told, refusing):
    refusing.side_effect = ValueError("lavender")
    answer = told.post(reverse("visits:visit-new"), {"partner": "Riverbend", "happened": "hello"})
    assert answer.status_code == 500
    assert "Something went wrong on our side" in answer.content.decode()
    assert "lavender" not in answer.content.decode()
