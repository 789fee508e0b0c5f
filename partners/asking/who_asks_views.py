"""Who asks whom, when."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from partners.asking.who_asks import coming, lately
from partners.program.access import DeskRequest, teachers

SHOWN = 30


@require_GET
@teachers
def who_asks(request: DeskRequest) -> HttpResponse:
    lines = coming(request.desk)
    met = [line for line in lines if line.clashes]
    asked = lately(request.desk)
    context = {"coming": lines, "met": met, "lately": asked[:SHOWN], "before": asked[SHOWN:]}
    return render(request, "asking/who_asks.html", context)
