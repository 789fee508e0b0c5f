"""Each guard holds; and with the guard taken away its test fails, so that none of these tests is empty."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from partners.program.models import Membership
from tests.attack import guards_of_files, guards_of_output, guards_of_pages, guards_of_people
from tests.attack.guard import GUARDS, Guard, Site, of_chapters

pytestmark = pytest.mark.django_db
each = pytest.mark.parametrize("guard", GUARDS, ids=lambda guard: guard.name)
# Their guards are in the list once they are loaded.
LOADED = (guards_of_files, guards_of_output, guards_of_pages, guards_of_people)


@pytest.fixture
def site(june: Membership, grace: Membership, otto: Membership, settings: Any, monkeypatch: pytest.MonkeyPatch) -> Site:
    return Site(june, grace, otto, settings, monkeypatch)


@each
def test_it_holds(guard: Guard, site: Site) -> None:
    guard.holds(site)


@each
def test_without_the_guard_its_test_fails(guard: Guard, site: Site) -> None:
    guard.without(site)
    with pytest.raises((AssertionError, KeyError, pytest.fail.Exception)):
        guard.holds(site)


def test_developers_find_every_guard_in_the_table() -> None:
    told = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert [row for row in of_chapters() if row not in told] == []
