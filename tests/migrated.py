"""A second, empty database of the same engine that was made by the migrations, as a teacher's is."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import connection, connections
from django.test import override_settings

ALIAS = "migrated"


def with_migrations() -> Any:
    """Django finds the migrations again, which a run of the tests hides from it."""
    return override_settings(MIGRATION_MODULES={})


@contextmanager
def migrated_database(folder: Path) -> Iterator[Any]:
    """The open connection to it. The tests' own database is made from the models, which takes a tenth of the time."""
    own = deepcopy(connection.settings_dict)
    sqlite = connection.vendor == "sqlite"
    own["NAME"] = folder / "migrated.sqlite3" if sqlite else f"{own['NAME']}_{ALIAS}_{os.getpid()}"
    if not sqlite:
        _on_server(f'DROP DATABASE IF EXISTS "{own["NAME"]}"', f'CREATE DATABASE "{own["NAME"]}"')
    connections.databases[ALIAS] = own
    try:
        with with_migrations():
            call_command("migrate", database=ALIAS, verbosity=0, interactive=False)
        yield connections[ALIAS]
    finally:
        connections[ALIAS].close()
        del connections[ALIAS], connections.databases[ALIAS]
        if not sqlite:
            _on_server(f'DROP DATABASE "{own["NAME"]}"')


def _on_server(*statements: str) -> None:
    with connection._nodb_cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)
