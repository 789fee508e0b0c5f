"""Every address of the site: who may open it, and that nobody reaches into another program."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.apps import apps
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from partners.ground.models import Row
from partners.program.models import Membership
from tests.rows import make_row

OPEN_TO_ALL = {
    "program:sign-in", "program:sign-out", "program:password", "program:no-program", "program:program-choose",
    "school:set-up",
}  # fmt: skip


def walk(patterns: Any, space: str = "") -> Iterator[tuple[str, URLPattern]]:
    for entry in patterns:
        if isinstance(entry, URLResolver):
            yield from walk(entry.url_patterns, f"{entry.namespace}:" if entry.namespace else space)
        elif entry.name:
            yield f"{space}{entry.name}", entry


ADDRESSES = dict(walk(get_resolver().url_patterns))
WITH_PK = {name: entry for name, entry in ADDRESSES.items() if "pk" in entry.pattern.converters}
ROWS = [model for model in apps.get_app_config("partners").get_models() if issubclass(model, Row)]


def arguments(entry: URLPattern, pk: int) -> dict[str, Any]:
    """A value for every part of the address; texts are tried with what the site itself links to."""
    texts = {"slug": "leave-behind", "act": "done"}
    return {name: pk if name == "pk" else texts.get(name, "x") for name in entry.pattern.converters}


def slugs(name: str) -> list[str]:
    if name == "agenda:settle":
        from partners.agenda.lines import SOURCES

        return [source.slug for source in SOURCES]
    if name.startswith("outreach:document"):
        return ["leave-behind", "gratitude-letter"]
    return ["leave-behind"]


@pytest.mark.parametrize("name", sorted(set(ADDRESSES) - OPEN_TO_ALL))
def test_every_view_says_who_may_open_it(name: str) -> None:
    assert getattr(ADDRESSES[name].callback, "open_to", "")


@pytest.fixture
def foreign(otto: Membership) -> set[int]:
    """One row of every kind in Otto's program, and every id that is taken there."""
    for model in ROWS:
        make_row(model, otto.program)
    return {
        pk for model in ROWS for pk in model._base_manager.filter(program=otto.program).values_list("pk", flat=True)
    }


@pytest.mark.django_db
@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("name", sorted(set(WITH_PK) - OPEN_TO_ALL))
def test_another_programs_row_is_not_there(signed_in: Client, foreign: set[int], name: str, method: str) -> None:
    answers = set()
    for slug in slugs(name):
        for pk in sorted(foreign):
            given = arguments(WITH_PK[name], pk)
            if "slug" in given:
                given["slug"] = slug
            answers.add(getattr(signed_in, method)(reverse(name, kwargs=given)).status_code)
    assert answers <= {404, 405}
    assert answers


@pytest.mark.django_db
@pytest.mark.parametrize("name", sorted(set(ADDRESSES) - {"program:sign-in", "program:sign-out", "school:set-up"}))
def test_nobody_reads_without_signing_in(client: Client, june: Membership, name: str) -> None:
    answer = client.get(reverse(name, kwargs=arguments(ADDRESSES[name], 1)))
    assert answer.status_code in (302, 405)
    assert answer.status_code == 405 or answer["Location"].startswith(reverse("program:sign-in"))
