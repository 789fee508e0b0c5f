"""Addresses that are worked out once are those that Django works out each time."""

from __future__ import annotations

from typing import Any

import pytest
from django.urls import reverse, set_script_prefix

from partners.ground.links import STAND_IN, page_link, row_link


@pytest.mark.parametrize("pk", [1, 42, STAND_IN, 10**17])
def test_the_address_of_a_row_is_what_django_gives(pk: int) -> None:
    assert row_link("directory:partner-detail", pk) == reverse("directory:partner-detail", args=[pk])


def test_words_stand_before_the_number() -> None:
    assert row_link("agenda:settle", 7, "gifts.thanks") == reverse("agenda:settle", args=["gifts.thanks", 7])


def test_the_address_of_a_page_is_what_django_gives() -> None:
    assert page_link("visits:visit-new") == reverse("visits:visit-new")


@pytest.fixture
def under_a_path() -> Any:
    set_script_prefix("/art/")
    yield
    set_script_prefix("/")


def test_a_site_under_a_path_keeps_it(under_a_path: Any) -> None:
    assert row_link("directory:partner-detail", 3).startswith("/art/")
