"""What templates need for phone numbers: how one is read, and the address behind it."""

from __future__ import annotations

from functools import lru_cache

from django import template

from partners.directory import phones

register = template.Library()


# Reading a number takes longer than the rest of its line, and the same partners come again on every page.
KEPT = 4096


@register.filter
@lru_cache(KEPT)
def national(stored: str | None) -> str:
    return phones.national(stored) if stored else ""


@register.filter
@lru_cache(KEPT)
def tel_link(stored: str | None) -> str:
    return phones.tel_link(stored) if stored else ""
