"""Another database in the place of the site's own, for one thread and for as long as the block lasts.

So everything that reads the record (the models, `check_book`, migrations) reads that one, and nothing need be told.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.contrib.contenttypes.models import ContentType
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.utils import load_backend


def opened(settings: dict[str, Any]) -> Any:
    """A connection of its own to the database of these settings; whoever asked for it closes it."""
    known = connections.configure_settings({DEFAULT_DB_ALIAS: dict(settings)})[DEFAULT_DB_ALIAS]
    return load_backend(known["ENGINE"]).DatabaseWrapper(known, DEFAULT_DB_ALIAS)


def scratch(path: Path | str) -> dict[str, Any]:
    """An SQLite file that is thrown away afterwards: quick, and lost with the power."""
    quick = "PRAGMA journal_mode=OFF; PRAGMA synchronous=OFF; PRAGMA cache_size=-100000;"
    return {"ENGINE": "django.db.backends.sqlite3", "NAME": path, "OPTIONS": {"init_command": quick}}


@contextmanager
def standing_in(other: Any) -> Iterator[Any]:
    own = connections[DEFAULT_DB_ALIAS]
    connections[DEFAULT_DB_ALIAS] = other
    try:
        yield other
    finally:
        connections[DEFAULT_DB_ALIAS] = own
        # What it remembers of the other database would be taken for this one's.
        ContentType.objects.clear_cache()
