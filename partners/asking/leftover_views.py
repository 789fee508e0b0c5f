"""Spending what is left: a page that works out and keeps nothing."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.http import HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_GET

from partners.asking.leftover import Answer, answer, missing, packs_words
from partners.asking.leftover_form import LeftoverForm
from partners.program.access import DeskRequest, teachers


@require_GET
@teachers
def leftover(request: DeskRequest) -> HttpResponse:
    asked = request.GET if "left" in request.GET else None
    form = LeftoverForm(asked, desk=request.desk, missing=missing(request.desk))
    context: dict[str, Any] = {"form": form}
    if form.is_bound and form.is_valid():
        wanted = form.wanted()
        context |= {"unpriced": form.not_looked_at(), "nothing_wanted": not wanted}
        if wanted:
            context["answer"] = found = answer(form.cleaned_data["left"], wanted)
            context["slip_url"] = slip_url(found, form.cleaned_data["grant"])
    return render(request, "wish_list/leftover.html", context)


def slip_url(found: Answer, grant: int | None) -> str:
    """The slip for what is to be bought, filled in, from the grant whose rest it spends; empty where nothing is."""
    if not found.bought:
        return ""
    what = ", ".join(packs_words(line.wanted.missing.need, line.packs) for line in found.bought)
    asked = {"what": what, "about": f"{found.total / 100:.2f}", **({"grant": grant} if grant else {})}
    return f"{reverse('funding:purchase-new')}?{urlencode(asked)}"
