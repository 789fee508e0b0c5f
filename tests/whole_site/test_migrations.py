"""The migrations make the very tables that the models ask for, on the engine at hand."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.db import connection

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


@pytest.fixture(scope="module")
def made(migrated: Any, django_db_blocker: Any) -> set[str]:
    with django_db_blocker.unblock():
        return schema(migrated)


def test_a_migrated_database_is_the_one_the_models_describe(made: set[str], db: None) -> None:
    described = schema(connection)
    assert len(described) > 300
    assert made - described == set()
    assert described - made == set()
