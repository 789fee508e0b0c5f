"""Partners and the people there."""

from __future__ import annotations

import re

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from partners.directory.partner_field import PICKED, suggested, suggestions
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened

FIELD = re.compile(r"[A-Za-z0-9_-]{1,60}")


@require_GET
@readers(Opened.PARTNERS)
def partner_suggest(request: DeskRequest) -> HttpResponse:
    """What a typed name could be, for the field named `field`; the name comes as `q` or under the field's own name."""
    field = request.GET.get("field", "partner")
    if not FIELD.fullmatch(field):
        field = "partner"
    typed = request.GET.get("q", request.GET.get(field, ""))
    found = suggested(suggestions(request.desk, typed))
    otherwise = _("No partner of this name yet.") if typed.strip() and not found else ""
    context = {"name": field + PICKED, "found": found, "otherwise": otherwise}
    return HttpResponse(render_to_string("_suggest_found.html", context))
