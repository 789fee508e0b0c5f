"""Template filters of the money."""

from __future__ import annotations

from django import template

from partners.funding.sales_tax import rate_words

register = template.Library()


@register.filter
def tax_rate(parts: int | None) -> str:
    """A rate of sales tax in words; empty where none is known."""
    return "" if parts is None else rate_words(parts)
