"""Addresses of pages, worked out once for each kind of page: a list of what is due asks for hundreds of them."""

from __future__ import annotations

from functools import cache

from django.urls import reverse

from partners.ground.reader import reader

STAND_IN = 987654321


def page_link(name: str) -> str:
    """What `reverse(name)` gives."""
    return _page(name, reader().prefix)


def row_link(name: str, pk: int, *before: str) -> str:
    """What `reverse(name, args=[*before, pk])` gives, at a fraction of its cost."""
    start, end = _row(name, before, reader().prefix)
    return f"{start}{pk}{end}"


@cache
def _page(name: str, prefix: str) -> str:
    return reverse(name)


@cache
def _row(name: str, before: tuple[str, ...], prefix: str) -> tuple[str, str]:
    start, _number, end = reverse(name, args=(*before, STAND_IN)).rpartition(str(STAND_IN))
    return start, end
