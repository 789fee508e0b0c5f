"""What templates need for phone numbers: how one is read, and the address behind it."""

from __future__ import annotations

from functools import lru_cache

from django import template
from django.utils.html import escape, format_html
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from partners.directory import phones
from partners.ground.reader import reader

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


@register.filter
def call(stored: str) -> SafeString:
    """The link that calls a number, beside the buttons of a due line; a phone needs the word alone."""
    return _call(stored, reader().language) if stored else SafeString()


@lru_cache(KEPT)
def _call(stored: str, language: str | None) -> SafeString:
    number = format_html('<span class="number">{}</span>', phones.national(stored))
    words = mark_safe(escape(_("Call %(number)s")) % {"number": number})  # noqa: S308 -- escaped
    return format_html('<a class="call" href="{}">{}</a>', phones.tel_link(stored), words)
