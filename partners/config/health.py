"""Whether the site can work, for whatever watches over it."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, InterfaceError
from django.http import HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from partners.config.readiness import is_pending


@login_not_required
@never_cache
@require_safe
def health(request: HttpRequest) -> HttpResponse:
    """Says ok when the database answers and no migration waits; else 503, and nothing about why."""
    try:
        ready = not is_pending()
    except (DatabaseError, InterfaceError):
        ready = False
    return HttpResponse("ok\n" if ready else "not ok\n", status=200 if ready else 503, content_type="text/plain")
