"""What is kept on a phone without a signal, and what its script asks when there is one again."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET

from partners.asking import kept
from partners.asking.address import number
from partners.program.access import DeskRequest, teachers


@require_GET
@teachers
def kept_list(request: DeskRequest) -> HttpResponse:
    """The list itself lies in the browser; the script of the page shows it."""
    return render(request, "asking/kept.html", {"form": None})


@require_GET
@never_cache
@teachers
def kept_pages(request: DeskRequest) -> HttpResponse:
    return JsonResponse({"pages": kept.pages(request.desk)})


@require_GET
@never_cache
def kept_state(request: DeskRequest) -> HttpResponse:
    """Who is signed in, whether they may write in `?program=`, and which of the forms `?once=` are saved there.

    With `?said` also what the last form said; nothing of it is said again.
    """
    program = number(request.GET.get("program") or "0")
    known = {
        "who": str(request.user.pk),
        "begun": kept.begun(request.user, program),
        "writes": kept.writes_in(request.user, program),
        "csrf": get_token(request),
        "saved": kept.saved(request.user, program, request.GET.getlist("once")),
        "said": [str(one) for one in messages.get_messages(request)] if "said" in request.GET else [],
    }
    return JsonResponse(known)
