"""Gives a run of the tests a place of its own, so that nothing reaches the teacher's book.

Loaded by pytest before the settings are read (see `addopts`).
"""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import hypothesis
import pytest

# The first is Chromium without its windows: the same engine for half the processor.
BROWSER_NAMES = (
    "chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
)  # fmt: skip
# Without one of these pytest-django refuses a test every row, so that what has none is the same on every database.
OPENS_DATABASE = {"db", "transactional_db", "django_db_setup", "live_server"}
# What a page says of its rows, and what a verb makes of them, is the same on every database; every address, every form
# and with it every verb is asked on each of them by the rooms of all pages, due days and changes by the rooms below.
# Engines compare words differently: what looks something up, sorts or counts queries stays.
ROOMS_OF_ALL_PAGES = {"whole_site", "attack", "faults", "copies", "config", "browser", "bench"}
ROOMS_BELOW = {"agenda", "ground", "program"}
DEPENDS_ON_ENGINE = (
    "search", "find", "found", "sort", "order", "narrow", "filter", "list", "quer", "question", "twice", "once",
    "double", "faster", "meanwhile", "same_time", "long", "number", "nonsense",
)  # fmt: skip
# Who may see what, and what stands on pages and sheets, is decided of rows that are here already; that every form and
# every verb writes them, and what is asked in whatever words, runs on each engine.
JUDGED_ONCE = {
    "agenda/test_settle.py", "attack/test_guards.py", "attack/test_reach.py", "config/test_demo_days.py",
    "copies/test_reading.py", "whole_site/test_demo_pages.py", "whole_site/test_every_sheet.py",
    "whole_site/test_forms.py", "whole_site/test_views.py", "whole_site/test_what_is_shown.py",
}  # fmt: skip
# Engines hold numbers of different length.
ON_EACH_ANYWAY = "test_a_row_that_never_was_is_not_there"
# The files in which tests were found, before any were left out by their marks.
COLLECTED = pytest.StashKey[set[Path]]()
IN_CI = os.environ.get("CI", "").lower() in ("1", "true", "yes")

for name in [name for name in os.environ if name.startswith("PARTNER_BOOK_")]:
    if name not in ("PARTNER_BOOK_DATABASE", "PARTNER_BOOK_ENVIRONMENT", "PARTNER_BOOK_BENCH_ROWS"):
        del os.environ[name]
DATA_FOLDER = Path(tempfile.mkdtemp(prefix="partner-book-tests-"))
(DATA_FOLDER / "static").mkdir()
atexit.register(shutil.rmtree, DATA_FOLDER, ignore_errors=True)
os.environ["PARTNER_BOOK_DATA"] = str(DATA_FOLDER)
# The browser's driver keeps an event loop running in this thread, which Django would take for asynchronous code.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"

# The cores are shared with a browser and a server: a slow example is no finding. In CI they are the same every time;
# `--hypothesis-profile=many` draws a thousand.
_kept = hypothesis.settings.get_profile("ci" if IN_CI else "default")
hypothesis.settings.register_profile("house", _kept, deadline=None, max_examples=40)
hypothesis.settings.register_profile("many", deadline=None, max_examples=1000)
hypothesis.settings.load_profile("house")


def chromium() -> str | None:
    """Path of this machine's Chromium, or None."""
    return next(filter(None, map(shutil.which, BROWSER_NAMES)), None)


def pytest_configure() -> None:
    from django.conf import settings

    settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
    # Tests move the clock by days; that somebody is signed out overnight is looked at where it matters.
    settings.SESSION_COOKIE_AGE = 60 * 24 * 60 * 60
    database = settings.DATABASES["default"]
    if database["ENGINE"].endswith("sqlite3"):
        # A file, as the site has: what is kept in memory is shared and locked in another way.
        database.setdefault("TEST", {})["NAME"] = DATA_FOLDER / "test.sqlite3"
        # Nothing here has to outlive the machine's power, and each commit would wait for the disk.
        begins = database["OPTIONS"]["init_command"]
        database["OPTIONS"]["init_command"] = begins.replace("synchronous=FULL", "synchronous=OFF")
    # A browser's server keeps no connection behind its answer: the test database could not be removed at the end.
    database["CONN_MAX_AGE"] = 0
    # Argon2 as the site has it, at the least it can cost: how much it costs there is Django's to choose.
    from django.contrib.auth.hashers import Argon2PasswordHasher

    Argon2PasswordHasher.time_cost, Argon2PasswordHasher.memory_cost, Argon2PasswordHasher.parallelism = 1, 8, 1
    look_for_files_once()


def look_for_files_once() -> None:
    """Each test's client makes the middleware anew, and whitenoise would open every file each time."""
    from django.core.signals import setting_changed
    from whitenoise.middleware import WhiteNoiseMiddleware

    look = WhiteNoiseMiddleware.add_files_from_finders
    found: dict[str, Any] = {}

    def add_found(served: WhiteNoiseMiddleware) -> None:
        if not found:
            look(served)
            found.update(served.files)
        served.files.update(found)

    WhiteNoiseMiddleware.add_files_from_finders = add_found
    # What was found with other settings is not what the site serves.
    setting_changed.connect(lambda **_told: found.clear(), weak=False)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    tests = Path(__file__).parent
    config.stash[COLLECTED] = {item.path for item in items}
    files = {path: relative(path, tests) for path in config.stash[COLLECTED]}
    for item in items:
        file = files[item.path]
        room = file.partition("/")[0]
        if room in ("browser", "bench"):
            item.add_marker(room)
        if item.get_closest_marker("django_db") or OPENS_DATABASE & set(getattr(item, "fixturenames", ())):
            item.add_marker("database")
        judged_once = file in JUDGED_ONCE and ON_EACH_ANYWAY not in item.nodeid
        if judged_once or (room not in ROOMS_OF_ALL_PAGES and is_alike(item, room)):
            item.add_marker("alike")
    # What makes much once for a whole file comes first: at the end runners take tests of one file from each other.
    items.sort(key=lambda item: "/whole_site/" not in item.nodeid)


def relative(path: Path, folder: Path) -> str:
    return path.relative_to(folder).as_posix() if path.is_relative_to(folder) else ""


def is_alike(item: pytest.Item, room: str) -> bool:
    """Whether a test of one room, or one that asks as a browser does, tells of nothing that engines do differently."""
    of_one_room = room not in ROOMS_BELOW or "client" in getattr(item, "fixturenames", ())
    return of_one_room and not any(word in item.nodeid.lower() for word in DEPENDS_ON_ENGINE)


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Iterator[None]:
    """What is being loaded stays, so there is nothing for the collector of garbage to find."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.enable()


def pytest_collection_finish(session: pytest.Session) -> None:
    """What was loaded stays: the collector of garbage need not walk through all of it again and again."""
    if not any(item.get_closest_marker("bench") for item in session.items):
        gc.collect()
        gc.freeze()
        gc.set_threshold(50_000, 20, 20)


def pytest_runtest_setup(item: pytest.Item) -> None:
    if item.get_closest_marker("browser") and chromium() is None:
        reason = "this machine has no Chromium (on Debian: sudo apt install chromium-headless-shell)"
        if IN_CI:
            pytest.fail(reason, pytrace=False)
        pytest.skip(reason)
