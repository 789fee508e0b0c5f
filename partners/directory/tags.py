"""What templates need for phone numbers: how one is read, and the address behind it."""

from __future__ import annotations

from django import template

from partners.directory import phones

register = template.Library()


@register.filter
def national(stored: str | None) -> str:
    return phones.national(stored) if stored else ""


@register.filter
def tel_link(stored: str | None) -> str:
    return phones.tel_link(stored) if stored else ""
