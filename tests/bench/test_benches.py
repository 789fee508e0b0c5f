"""Runs the benches and prints their tables: `python3 manage.py test tests/bench -s`. Times are hardly asserted."""

from __future__ import annotations

from tests.bench import (
    bench_duplicates,
    bench_files,
    bench_helpers,
    bench_letters,
    bench_load,
    bench_plan,
    bench_plan_rows,
    bench_review,
    bench_spend_down,
)


def test_letters() -> None:
    """The ratio to the plain way has room enough for any machine."""
    print()
    assert bench_letters.table()


def test_duplicates() -> None:
    print()
    assert bench_duplicates.table()


def test_plan() -> None:
    print()
    assert bench_plan.table()


def test_plan_out_of_the_database() -> None:
    print()
    assert bench_plan_rows.table()


def test_helpers() -> None:
    print()
    assert bench_helpers.table()


def test_files() -> None:
    print()
    assert bench_files.table()


def test_load() -> None:
    print()
    assert bench_load.table()


def test_spend_down() -> None:
    print()
    assert bench_spend_down.table()


def test_review_today_and_saving() -> None:
    """What does not depend on the machine: the same queries at every size, and hardly more steps in a larger book."""
    print()
    for rows in bench_review.run().values():
        assert len({row["queries"] for row in rows}) == 1
        assert rows[-1]["steps"] < 4 * rows[0]["steps"]
