"""What templates need to show due lines."""

from __future__ import annotations

from typing import Any

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from partners.agenda.buttons import Page, buttons

register = template.Library()


@register.simple_tag(takes_context=True)
def due_acts(context: Any, line: Any, back: str = "") -> SafeString:
    """The buttons of a due line; `in_place`: see _due_line.html."""
    csrf = format_html('<input type="hidden" name="csrfmiddlewaretoken" value="{}">', context.get("csrf_token", ""))
    page = Page(context["desk"].writes, csrf, context.get("here", ""), bool(context.get("in_place")))
    return buttons(line, page, back)
