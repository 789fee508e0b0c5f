"""The page of all parts, and that nothing on it needs an inline script or style."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

INLINE = re.compile(r"<script(?![^>]*\ssrc=)|<style|\sstyle=|\son[a-z]+=|javascript:", re.IGNORECASE)


@pytest.fixture
def shown(signed_in: Client) -> str:
    return signed_in.get(reverse("program:components"), {"bound": "yes"}).content.decode()


def test_keepers_see_every_part(shown: str) -> None:
    for part in ('class="line due"', 'class="verdict may"', "data-error-summary", "<caption", 'class="caution"'):
        assert part in shown


def test_teachers_do_not_see_it(client: Client, omar: Any) -> None:
    client.force_login(omar.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse("program:components")).status_code == 403


def test_nothing_stands_inline(shown: str) -> None:
    assert INLINE.search(shown) is None


def test_there_is_one_first_heading(shown: str) -> None:
    assert shown.count("<h1>") == 1


def test_sorted_columns_say_so(signed_in: Client) -> None:
    shown = signed_in.get(reverse("program:components"), {"sort": "-name"}).content.decode()
    assert 'aria-sort="descending"' in shown


def test_a_list_that_goes_on_links_to_its_next_page_without_a_count(signed_in: Client) -> None:
    shown = signed_in.get(reverse("program:components")).content.decode()
    assert 'rel="next"' in shown
    assert 'rel="prev"' not in shown


def test_an_error_is_linked_from_the_summary_to_its_field(shown: str) -> None:
    assert 'href="#id_happened"' in shown
    assert 'id="id_happened"' in shown
