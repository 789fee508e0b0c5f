"""The machine's own browser, started the same way for every test."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection
from playwright.sync_api import Browser

from tests import surroundings

OTHERS = """
    SELECT pg_terminate_backend(pid) FROM pg_stat_activity
    WHERE datname = current_database() AND pid <> pg_backend_pid()
"""


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    quiet = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
    quiet += ["--disable-component-update", "--disable-sync", "--no-sandbox"]
    return {**browser_type_launch_args, "executable_path": surroundings.chromium(), "args": quiet}


@pytest.fixture(scope="session", autouse=True)
def _no_worker_unless_asked_for() -> Iterator[None]:
    """What a page fetches stands under the test's hand; tests/browser/test_offline.py asks for the service worker."""
    plainly = Browser.new_context

    def new_context(self: Browser, **kind: Any) -> Any:
        return plainly(self, **{"service_workers": "block", **kind})

    Browser.new_context = new_context  # type: ignore[method-assign]
    yield
    Browser.new_context = plainly  # type: ignore[method-assign]


@pytest.fixture(scope="session", autouse=True)
def _let_go_of_the_database(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    """PostgreSQL removes no database to which a thread of the browser's server still holds a connection."""
    yield
    if connection.vendor == "postgresql":
        with django_db_blocker.unblock(), connection.cursor() as cursor:
            cursor.execute(OTHERS)
