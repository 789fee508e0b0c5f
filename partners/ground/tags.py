"""What templates need besides Django's own: money and days in the reader's language."""

from __future__ import annotations

import re

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from partners.ground.days import at_hour, in_margin, in_story, when
from partners.ground.look import STYLES
from partners.ground.money import format_cents
from partners.ground.reader import reader

register = template.Library()
register.filter(in_margin)
register.filter(at_hour)
register.filter(when)
register.filter(in_story)


@register.filter
def money(cents: int | None) -> str:
    return "" if cents is None else format_cents(cents, reader().language or "en-us")


@register.filter
def breakable(address: str) -> SafeString:
    """A long e-mail address goes on in the next line before its @ or one of its dots, nowhere else."""
    return mark_safe(re.sub(r"(?=[@.])", "<wbr>", escape(address)))  # noqa: S308 -- escaped


@register.simple_tag
def look() -> tuple[str, ...]:
    return STYLES
