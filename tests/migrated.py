"""Further empty databases of the same engine, made as a teacher's are: by the migrations, or new by the start."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from copy import deepcopy
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import connection, connections
from django.test import override_settings


def with_migrations() -> Any:
    """Django finds the migrations again, which a run of the tests hides from it."""
    return override_settings(MIGRATION_MODULES={})


def migrate(alias: str) -> None:
    call_command("migrate", database=alias, verbosity=0, interactive=False)


@contextmanager
def another_database(folder: Path, alias: str, make: Callable[[str], None]) -> Iterator[Any]:
    """The open connection to a database that `make` filled with tables."""
    own = deepcopy(connection.settings_dict)
    sqlite = connection.vendor == "sqlite"
    own["NAME"] = folder / f"{alias}.sqlite3" if sqlite else f"{own['NAME']}_{alias}_{os.getpid()}"
    if not sqlite:
        _on_server(f'DROP DATABASE IF EXISTS "{own["NAME"]}"', f'CREATE DATABASE "{own["NAME"]}"')
    connections.databases[alias] = own
    try:
        with with_migrations():
            make(alias)
        yield connections[alias]
    finally:
        connections[alias].close()
        del connections[alias], connections.databases[alias]
        if not sqlite:
            _on_server(f'DROP DATABASE "{own["NAME"]}"')


def _on_server(*statements: str) -> None:
    with connection._nodb_cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)
