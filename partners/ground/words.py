"""gettext for long lists: each text is looked up once for each language, and not a thousand times a page."""

from __future__ import annotations

from functools import lru_cache

from django.utils.html import escape
from django.utils.safestring import SafeString
from django.utils.translation import gettext as looked_up

from partners.ground.reader import reader


def gettext(text: str) -> str:
    """What Django's gettext gives."""
    return _kept(text, reader().language)


@lru_cache(4096)
def _kept(text: str, language: str | None) -> str:
    return looked_up(text)


@lru_cache(4096)
def escaped(text: str) -> SafeString:
    """The text as HTML: what stands in many places of a page need not be looked through at each of them."""
    return escape(text)
