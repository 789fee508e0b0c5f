"""A server's log: one line of JSON a request, and a person in none of them."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import IntegrityError
from django.test import Client
from django.urls import reverse

from partners.asking import views
from partners.config.logs import Reticent
from partners.program.models import Membership
from partners.visits.models import Visit

pytestmark = pytest.mark.django_db
MARKED = "Quillon"


class Written:
    """What every logger writes while the site runs with PARTNER_BOOK_LOG=json."""

    def __init__(self) -> None:
        self.stream = io.StringIO()

    @property
    def lines(self) -> list[dict[str, Any]]:
        return [json.loads(line) for line in self.stream.getvalue().splitlines()]


@pytest.fixture
def log(monkeypatch: pytest.MonkeyPatch) -> Iterator[Written]:
    written = Written()
    handler = logging.StreamHandler(written.stream)
    handler.setFormatter(Reticent())
    root = logging.getLogger()
    names = ["partners.request", "partners.trouble", "django", "django.request", "django.security", "axes", "csp"]
    loggers = [root, *(logging.getLogger(name) for name in names)]
    for logger in loggers:
        monkeypatch.setattr(logger, "level", logging.INFO)
        monkeypatch.setattr(logger, "propagate", True)
        monkeypatch.setattr(logger, "handlers", [])
        logger._cache.clear()
    monkeypatch.setattr(root, "handlers", [handler])
    yield written
    for logger in loggers:
        logger._cache.clear()


@pytest.fixture
def teacher(june: Membership) -> Client:
    client = Client(raise_request_exception=False, headers={"user-agent": MARKED, "referer": f"http://{MARKED}.test/"})
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def test_a_request_is_one_line_with_the_name_of_its_page(log, teacher, program):
    teacher.get(reverse("story:search"), {"q": MARKED})
    [line] = [line for line in log.lines if line["logger"] == "partners.request"]
    assert {name: line[name] for name in ("logger", "words", "method", "page", "status", "program")} == {
        "logger": "partners.request", "words": "request", "method": "GET", "page": "story:search", "status": 200,
        "program": program.pk,
    }  # fmt: skip
    assert line["ms"] > 0
    assert set(line) == {"time", "level", "logger", "words", "method", "page", "status", "ms", "program"}


def failing(desk: Any, said: Any) -> None:
    """A verb that fails in the middle of what was typed, as a database would that repeats the row."""
    try:
        Visit.objects.create(program=desk.program, note=MARKED, day=desk.day)
    except IntegrityError as problem:
        raise ValueError(f"Not for {said!r}, {MARKED}") from problem


def test_a_fault_is_told_by_its_kind_and_place_and_never_with_what_was_typed(log, teacher, monkeypatch):
    monkeypatch.setattr(views, "log_visit", failing)
    names = [
        "partner",
        "what",
        "offer",
        "our_promise",
        "reason",
        "contact_name",
        "note",
        "new_place",
        "once",
        "nothing",
    ]
    typed = dict.fromkeys(names, f"{MARKED}@example.org") | {"happened": "hello", "new_place": "", "partner": MARKED}
    teacher.cookies["liking"] = MARKED
    answer = teacher.post(f"{reverse('visits:visit-new')}?{MARKED}={MARKED}", typed)
    assert answer.status_code == 500
    assert MARKED.casefold() not in log.stream.getvalue().casefold()
    [fault] = [line["fault"] for line in log.lines if "fault" in line]
    assert [told["kind"] for told in fault[:2]] == ["builtins.ValueError", "django.db.utils.IntegrityError"]
    assert any(where.startswith("partners/asking/views.py:") for where in fault[0]["through"])


@pytest.mark.parametrize("ask", [
    lambda client: client.post(reverse("program:sign-in"), {"username": MARKED, "password": MARKED}),
    lambda client: client.get(f"/{MARKED}/"),
    lambda client: client.get("/", headers={"host": f"{MARKED}.test"}),
    lambda client: client.generic(MARKED.upper(), "/"),
    lambda client: client.post("/visits/new/", MARKED, content_type=f"multipart/form-data; boundary={MARKED}"),
    lambda client: client.post(f"/{MARKED}/?{MARKED}", headers={"origin": f"http://{MARKED}.test"}),
])  # fmt: skip
def test_nothing_of_a_request_that_is_turned_away_is_told(log, ask):
    for checks in (False, True):
        ask(Client(raise_request_exception=False, enforce_csrf_checks=checks, headers={"user-agent": MARKED}))
    assert [line for line in log.lines if line["logger"] == "partners.request"]
    assert MARKED.casefold() not in log.stream.getvalue().casefold()


def test_the_words_of_another_library_stay_and_what_fills_them_goes(log):
    logging.getLogger("elsewhere").warning("%s went wrong", MARKED)
    logging.getLogger("elsewhere").warning(f"{MARKED} went wrong")
    assert [line["words"] for line in log.lines] == ["%s went wrong", ""]
    assert [line["at"].startswith("tests/config/test_logs.py:") for line in log.lines] == [True, True]
