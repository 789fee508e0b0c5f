"""Forgetting a person: what is found is shown, asked about twice, and then done for good."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from partners.program.access import DeskRequest, keepers
from partners.story.forget import forget
from partners.story.forget_page import Answers, Findings, found_person
from partners.story.known_as import is_forgotten, is_person, page_of


@require_http_methods(["GET", "POST"])
@keepers
def person_forget(request: DeskRequest, pk: int, kind: str) -> HttpResponse:
    """First what is found, then once more whether it shall be so. A keeper's schools do not narrow it."""
    person = found_person(request.desk.program, kind, pk)
    if person is None:
        raise Http404
    page = page_of(person)
    if is_forgotten(person):
        messages.info(request, _("Whoever this was is forgotten already."))
        return redirect(page)
    context: dict[str, Any] = {"person": person, "back": page}
    if not is_person(person):
        return render(request, "story/forget_place.html", context)
    return asked_twice(request, Findings(request.desk.program, person, Answers.of(request.POST)), context)


@require_http_methods(["GET", "POST"])
@keepers
def named_forget(request: DeskRequest) -> HttpResponse:
    """Somebody who has no page, or has it no longer, and is named in texts, in the history or on sheets."""
    context = {"person": _("somebody without a page"), "back": reverse("story:history")}
    return asked_twice(request, Findings(request.desk.program, None, Answers.of(request.POST)), context)


def asked_twice(request: DeskRequest, found: Findings, context: dict[str, Any]) -> HttpResponse:
    step = request.POST.get("step", "")
    asked = step == "ask" and bool(found.traces) and not found.unseen
    if step == "ask" and "sure" in request.POST and asked:
        forget(desk=request.desk, forgetting=found.forgetting())
        messages.success(request, _("It is done: who this was is no longer in the book. Counts and hours stay."))
        return redirect(context["back"])
    context |= {"found": found, "asked": asked, "more": step == "ask" and found.unseen}
    context["not_sure"] = asked and "confirming" in request.POST
    return render(request, "story/forget_sure.html" if asked else "story/forget.html", context)
