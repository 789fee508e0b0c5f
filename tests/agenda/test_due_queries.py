"""What reading the due list costs: index searches, and a fixed number of queries at any size."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from partners.agenda.lines import SOURCES
from partners.agenda.review import review
from partners.agenda.today import today
from partners.ground.due import DueSource, Hand
from partners.program.desk import Desk
from partners.program.models import Program
from partners.visits.models import FollowUp, Visit
from tests import people

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
on_sqlite = pytest.mark.skipif(
    "connection.vendor != 'sqlite'",
    reason="a plan of PostgreSQL depends on its figures about the rows; see tests/bench",
)


def plan(queryset: Any) -> list[str]:
    sql, params = queryset.query.sql_with_params()
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN QUERY PLAN {sql}", params)
        return [row[3] for row in cursor.fetchall()]


def page_of(desk: Desk, source: DueSource, **where: Any) -> Any:
    """The very query that a page of the source makes."""
    with CaptureQueriesContext(connection) as caught:
        source.page(desk, until=DAY, limit=50, **where)
    (query,) = caught.captured_queries
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN QUERY PLAN {query['sql']}")
        return [row[3] for row in cursor.fetchall()]


@on_sqlite
@pytest.mark.parametrize("after", [None, (DAY - timedelta(days=9), 5)], ids=["first page", "later page"])
@pytest.mark.parametrize("limited", [False, True], ids=["all schools", "one school"])
@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.slug)
def test_each_source_is_an_index_search_without_a_sort(
    program: Program, source: DueSource, limited: bool, after: Any
) -> None:
    desk = Desk(program=program, day=DAY, school_ids=frozenset({people.make_school(program).pk} if limited else ()))
    steps = page_of(desk, source, after=after)
    table = source.rows(desk).model._meta.db_table
    own = next(step for step in steps if f" {table} " in f"{step} ")
    assert own.startswith(f"SEARCH {table} USING ")
    assert f"{source.date_field}<?" in own
    assert not [step for step in steps if "TEMP B-TREE" in step or step.startswith("SCAN")]


@on_sqlite
def test_the_plan_shows_a_sort_where_no_index_serves(desk: Desk) -> None:
    steps = plan(desk.follow_ups.open().order_by("what"))
    assert any("USE TEMP B-TREE" in step for step in steps)


def grow(program: Program, first: int, last: int) -> None:
    partners = [people.make_partner(program, f"Partner {n}") for n in range(first, first + 5)]
    school = program.schools.first() or people.make_school(program, cycle_length=6, cycle_from=DAY)
    rows = [
        FollowUp(
            program=program, partner=partners[n % 5], school=school, what=f"x{n}", due=DAY - timedelta(days=n), base=DAY
        )
        for n in range(first, last)
    ]
    FollowUp.objects.bulk_create(rows)
    Visit.objects.bulk_create(Visit(program=program, partner=one, day=DAY, happened="hello") for one in partners)


# One for each of the sources, and a few besides. Where one fills the page by itself, Today asks it again for the week,
# and the review asks how many lines each hand has.
@pytest.mark.parametrize(("shown", "most"), [(today, 56), (review, 51)])
def test_500_lines_need_one_query_more_than_10(program: Program, shown: Any, most: int) -> None:
    desk = people.make_desk(program)
    counts = []
    for first, last in ((0, 10), (10, 500)):
        grow(program, first, last)
        with CaptureQueriesContext(connection) as caught:
            shown(desk)
        counts.append(len(caught))
    assert counts[0] <= most
    assert counts[1] == counts[0] + 1


PASSES = {"due_hour", "starts", "display_from", "display_until"}


def test_whatever_has_an_hour_is_collected_or_is_a_day_of_a_show_can_run_out() -> None:
    assert [source.slug for source in SOURCES if source.runs_out] == [
        source.slug for source in SOURCES if source.hand is Hand.COLLECT or PASSES & set(source.columns)
    ]
