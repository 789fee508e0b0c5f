"""Labels: for whom, the measures of the sheet, where the first one goes, and print."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from outreach.gathering.addresses import BATCH
from outreach.label_forms import LabelForm, first_values
from outreach.label_measures import LENGTHS, READY
from outreach.preparing import to_print
from partners.program.access import DeskRequest, teachers

OWN = ("paper", "unit", "columns", "rows", *LENGTHS, "start", "check")


@require_GET
@teachers
def label_sheet(request: DeskRequest) -> HttpResponse:
    """Everything chosen stands in the address, so that a bookmark keeps a box of labels."""
    paper = request.desk.program.paper
    typed = "columns" in request.GET
    form = LabelForm(request.GET if typed else first_values(paper))
    prepared = to_print(request.desk, "labels", 0, request.GET)
    facts = prepared.facts
    right = form.is_valid()
    address = reverse("outreach:document", args=["labels", 0])
    query = asked(request, **{name: form[name].value() for name in OWN if name in form.fields})
    context: dict[str, Any] = {
        "form": form,
        "facts": facts,
        "title": title(request, facts.names),
        "kept": [(name, value) for name, value in request.GET.items() if name not in OWN],
        "ready": [
            (one, "?" + asked(request, **first_values(paper, n, facts.start))) for n, one in enumerate(READY[paper])
        ],
    }
    if right:
        context |= {
            "gaps": prepared.gaps(),
            "print": f"{address}?{query}",
            "check": f"{address}?{query}&check=yes",
            "cells": cells(facts),
            "next": (facts.start - 1 + len(facts.addresses)) % facts.grid.count + 1,
        }
    return render(request, "outreach/label_sheet.html", context)


def asked(request: DeskRequest, **values: Any) -> str:
    """The address with these measures in place of its own."""
    query = request.GET.copy()
    for name in OWN:
        query.pop(name, None)
    for name, value in values.items():
        query[name] = str(value)
    return query.urlencode()


def title(request: DeskRequest, names: bool) -> str:
    if names:
        return _("Name labels for helpers")
    if request.GET.get("of") == BATCH:
        batch = request.desk.batches.filter(pk=to_number(request.GET.get("batch", ""))).first()
        return _("Labels: %(title)s") % {"title": batch} if batch else _("Labels")
    return _("Labels for partners")


def to_number(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 19 else 0


def cells(facts: Any) -> list[dict[str, Any]]:
    """The first sheet in small: which labels are printed on."""
    last = facts.start - 1 + len(facts.addresses)
    return [
        {"box": facts.grid.box(place), "filled": facts.start - 1 <= place < last} for place in range(facts.grid.count)
    ]
