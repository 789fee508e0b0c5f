"""The machine's own browser, started the same way for every test."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from playwright.sync_api import Browser, Page

from tests import surroundings
from tests.browser.lent import lend
from tests.whole_site.walk import keeper_of_the_demo, walked

OTHERS = """
    SELECT pg_terminate_backend(pid) FROM pg_stat_activity
    WHERE datname = current_database() AND pid <> pg_backend_pid()
"""

TABLE = (1280, 860)
# Its own buttons, which nobody sees here, are pages too, each with a process. Given last, this list counts in place of
# Playwright's: so what of that one a test could meet stands here again.
UNSEEN = [
    "InitialWebUI", "WebUIReloadButton", "WebUIBackForwardButton", "WebUIHomeButton", "WebUIToolbar",
    "WebUILocationBar", "WebUISplitTabsButton", "PreloadTopChromeWebUI",
    "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades",
    "HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "OptimizationHints", "PaintHolding",
    "PreconnectToSearch", "ThirdPartyStoragePartitioning",
]  # fmt: skip


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    quiet = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
    quiet += ["--disable-component-update", "--disable-sync", "--no-sandbox"]
    # Fewer processes take a tenth less of the processor.
    quiet += ["--in-process-gpu", "--renderer-process-limit=1", f"--disable-features={','.join(UNSEEN)}"]
    return {**browser_type_launch_args, "executable_path": surroundings.chromium(), "args": quiet}


@pytest.fixture(scope="session", autouse=True)
def _windows_are_lent() -> Iterator[None]:
    """What a page fetches stands under the test's hand; tests/browser/test_offline.py asks for the service worker."""
    plainly = Browser.new_context

    def new_context(self: Browser, **kind: Any) -> Any:
        if "service_workers" in kind:
            return plainly(self, **kind)
        return lend(self, plainly, service_workers="block", **kind)

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


@pytest.fixture
def window(browser: Browser, live_server: Any) -> Iterator[Callable[..., Page]]:
    """Opens an address as whoever is signed in at a client sees it, at a size."""
    contexts = []

    def open_page(client: Client, path: str, size: tuple[int, int] = TABLE, **kind: Any) -> Page:
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, base_url=live_server.url, **kind)
        session = client.cookies["sessionid"].value
        context.add_cookies([{"name": "sessionid", "value": session, "url": live_server.url}])
        contexts.append(context)
        page = context.new_page()
        page.goto(path)
        return page

    yield open_page
    for context in contexts:
        context.close()


@pytest.fixture
def opened(window: Callable[..., Page], signed_in: Client) -> Callable[..., Page]:
    """Opens an address as June sees it, at a size."""
    return partial(window, signed_in)


@pytest.fixture
def demo_opened(window: Callable[..., Page], transactional_db: None) -> Callable[..., tuple[Page, list[str]]]:
    """Opens the demo book's Today at a size, and says every address that its pages lead to, one of each kind."""
    client = keeper_of_the_demo()
    addresses = list(walked(client, "/", of_one_kind=1).pages)
    return lambda *size, **kind: (window(client, "/", *size, **kind), addresses)
