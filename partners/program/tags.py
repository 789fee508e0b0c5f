"""What templates need to lead nobody to a page that is not open to them."""

from __future__ import annotations

from typing import Any

from django import template
from django.utils.html import conditional_escape, format_html

from partners.program.access import leads
from partners.program.desk import Desk

register = template.Library()


@register.simple_tag(takes_context=True)
def linked(context: dict[str, Any], row: Any, name: str = "") -> str:
    """A row's name, which leads to its page where that is open to the person."""
    address = row.get_absolute_url()
    if not leads(context["desk"], address):
        return conditional_escape(name or str(row))
    return format_html('<a href="{}">{}</a>', address, name or row)


@register.filter
def open_to(address: str, desk: Desk) -> str:
    """The address, or nothing where its page is not open to the person: {% if url|open_to:desk %}."""
    return address if leads(desk, address) else ""
