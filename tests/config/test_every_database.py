"""Which tests run on every database, and which once: told by what they may open."""

from __future__ import annotations

import pytest

from partners.program.models import Program


def test_a_test_that_is_not_marked_can_read_no_row(request: pytest.FixtureRequest) -> None:
    assert request.node.get_closest_marker("database") is None
    with pytest.raises(RuntimeError, match="Database access not allowed"):
        Program.objects.exists()


def test_a_test_with_the_cast_is_marked(request: pytest.FixtureRequest, program: Program) -> None:
    assert request.node.get_closest_marker("database")


@pytest.mark.django_db
def test_a_test_that_asks_for_the_database_is_marked(request: pytest.FixtureRequest) -> None:
    assert request.node.get_closest_marker("database")


def test_a_test_that_opens_the_database_by_itself_is_marked(
    request: pytest.FixtureRequest, django_db_setup: None
) -> None:
    assert request.node.get_closest_marker("database")
