"""Spending what is left: a page that works out and keeps nothing."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from partners.asking.leftover import answer, missing
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
            context["answer"] = answer(form.cleaned_data["left"], wanted)
    return render(request, "wish_list/leftover.html", context)
