"""How the database means to carry out what a piece of code asks of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext


def plan_of(run: Callable[[], Any]) -> str:
    """SQLite's plan for every query that `run` makes, joined; skips the test on another database."""
    if connection.vendor != "sqlite":
        pytest.skip("reads SQLite's own plans")
    with CaptureQueriesContext(
        connection,
    ) as asked:
        run()
    steps = []
    with connection.cursor() as cursor:
        for query in asked.captured_queries:
            cursor.execute(f"EXPLAIN QUERY PLAN {query['sql']}")
            steps += [row[3] for row in cursor.fetchall()]
    assert steps
    return "\n".join(steps)
