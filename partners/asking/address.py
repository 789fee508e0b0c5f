"""Reading the numbers of rows out of an address."""

from __future__ import annotations

from django.http import Http404


def number(text: str) -> int:
    """A row's number. Raises Http404 for anything else: such a page does not exist."""
    if not text.isascii() or not text.isdecimal() or len(text) > 18:
        raise Http404
    return int(text)
