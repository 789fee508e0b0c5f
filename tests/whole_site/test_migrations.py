"""The migrations make the very tables that the models ask for, and so does the first start, on the engine at hand.

Django thinks half a minute about all of them. What landed changes no more, so an ordinary run takes the newest alone,
from the tables of the step before them, and on a server, where more of them can fail; all of them run by night. On
SQLite tests/copies/test_reading.py brings an older book forward each time.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.db import connection, connections
from django.db.migrations.recorder import MigrationRecorder

from partners import migrations
from partners.config import new_database
from partners.copies.reading import make_tables_of
from tests.migrated import another_database, migrate

pytestmark = [] if os.environ.get("PARTNER_BOOK_DATABASE") else [pytest.mark.nightly]

MIGRATIONS = Path(migrations.__file__).parent
NEWEST = 3

COLUMNS = """
    SELECT table_name || '.' || column_name || ' ' || data_type || ' ' || is_nullable || ' '
        || coalesce(character_maximum_length::text, '') || ' ' || coalesce(collation_name, '')
    FROM information_schema.columns WHERE table_schema = 'public' AND table_name LIKE 'partners%'
"""
CONSTRAINTS = """
    SELECT conrelid::regclass::text || ' ' || contype::text || ' ' || pg_get_constraintdef(oid)
    FROM pg_constraint WHERE conrelid::regclass::text LIKE 'partners%'
"""
INDEXES = "SELECT regexp_replace(indexdef, 'INDEX .* ON', 'INDEX ON') FROM pg_indexes WHERE tablename LIKE 'partners%'"
STATEMENTS = "SELECT tbl_name, sql FROM sqlite_master WHERE tbl_name LIKE 'partners%' AND sql IS NOT NULL"


def parts(statement: str) -> list[str]:
    """The columns and constraints of a CREATE TABLE, without the order in which they were added."""
    depth, begun, found = 0, 0, []
    inner = statement[statement.index("(") + 1 : statement.rindex(")")]
    for place, sign in enumerate(inner):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth == 0:
            found.append(inner[begun:place])
            begun = place + 1
    return [re.sub(r"\s+", " ", part).strip() for part in (*found, inner[begun:])]


def schema(database: Any) -> set[str]:
    with database.cursor() as cursor:
        if database.vendor != "sqlite":
            lines = set()
            for question in (COLUMNS, CONSTRAINTS, INDEXES):
                cursor.execute(question)
                lines |= {line for (line,) in cursor.fetchall()}
            return lines
        cursor.execute(STATEMENTS)
        found = cursor.fetchall()
    tables = {f"{name}: {part}" for name, sql in found if sql.startswith("CREATE TABLE") for part in parts(sql)}
    indexes = {re.sub(r'INDEX "[^"]*"', "INDEX", sql) for _name, sql in found if not sql.startswith("CREATE TABLE")}
    return tables | indexes


@pytest.fixture(scope="module", params=["newest", pytest.param("all", marks=pytest.mark.nightly)])
def migrated(
    request: pytest.FixtureRequest,
    django_db_setup: None,
    django_db_blocker: Any,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Any]:
    """A database that the migrations made; the tests' own is made from the models."""

    def make(alias: str) -> None:
        if request.param == "newest":
            make_tables_of(connections[alias], sorted(path.stem for path in MIGRATIONS.glob("0*.py"))[-NEWEST - 1])
        migrate(alias)

    database = another_database(tmp_path_factory.mktemp("migrated"), "migrated", make)
    # Not for the whole run: tests that ask for no database must go on being refused one.
    with django_db_blocker.unblock():
        opened = database.__enter__()
    yield opened
    with django_db_blocker.unblock():
        database.__exit__(None, None, None)


@pytest.fixture(scope="module")
def made(migrated: Any, django_db_blocker: Any) -> set[str]:
    with django_db_blocker.unblock():
        return schema(migrated)


def test_a_migrated_database_is_the_one_the_models_describe(made: set[str], db: None) -> None:
    described = schema(connection)
    assert len(described) > 300
    assert made - described == set()
    assert described - made == set()


def names(database: Any) -> set[str]:
    """Of every table, index and constraint, also those of other apps: later migrations call them by it."""
    with database.cursor() as cursor:
        found = set()
        for table in database.introspection.table_names(cursor):
            found |= {f"{table} {name}" for name in database.introspection.get_constraints(cursor, table)}
    # SQLite gives unnamed ones a number in the order in which it meets them.
    return {name for name in found if "__unnamed_constraint_" not in name}


def test_a_new_database_is_the_migrated_one(migrated: Any, django_db_blocker: Any, tmp_path: Path) -> None:
    with django_db_blocker.unblock(), another_database(tmp_path, "new", new_database.make_tables) as new:
        assert schema(new) == schema(migrated)
        assert names(new) == names(migrated)
        applied = MigrationRecorder(new).applied_migrations().keys()
        assert applied == MigrationRecorder(migrated).applied_migrations().keys()
        assert not new_database.is_new("new")
