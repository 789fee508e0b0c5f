"""Each guard holds; and with the guard taken away its test fails, so that none of these tests is empty."""

from __future__ import annotations

from typing import Any

import pytest

from partners.program.models import Membership
from tests.attack import guards_of_files, guards_of_pages, guards_of_people
from tests.attack.guard import GUARDS, Guard, Site

pytestmark = pytest.mark.django_db
each = pytest.mark.parametrize("guard", GUARDS, ids=lambda guard: guard.name)
# Their guards are in the list once they are loaded.
LOADED = (guards_of_files, guards_of_pages, guards_of_people)


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
