"""Which tests run on every database, and which once: told by what they may open."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from partners.program.models import Program
from tests.surroundings import is_alike


def test_a_test_that_is_not_marked_can_read_no_row(request: pytest.FixtureRequest) -> None:
    assert request.node.get_closest_marker("database") is None
    with pytest.raises(RuntimeError, match="Database access not allowed"):
        Program.objects.exists()


def test_a_test_with_the_cast_is_marked(request: pytest.FixtureRequest, program: Program) -> None:
    assert request.node.get_closest_marker("database")


@pytest.mark.django_db
def test_a_test_that_asks_for_the_database_is_marked(request: pytest.FixtureRequest) -> None:
    assert request.node.get_closest_marker("database")


def test_a_test_of_one_room_or_with_a_client_is_alike_unless_engines_differ_in_it() -> None:
    assert is_alike(asking("tests/gifts/test_gift_views.py::test_the_page_says_thanks", "client"), "gifts")
    assert is_alike(asking("tests/gifts/test_gift_verbs.py::test_it_is_thanked_for", "desk"), "gifts")
    assert not is_alike(asking("tests/gifts/test_gift_views.py::test_the_page_is_narrowed_by_year", "client"), "gifts")
    assert not is_alike(asking("tests/agenda/test_redate.py::test_a_date_moves", "desk"), "agenda")


def asking(name: str, fixture: str) -> Any:
    return SimpleNamespace(nodeid=name, fixturenames=[fixture])


def test_a_test_that_opens_the_database_by_itself_is_marked(
    request: pytest.FixtureRequest, django_db_setup: None
) -> None:
    assert request.node.get_closest_marker("database")
