"""Who asks whom, when."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from partners.asking.who_asks import coming, lately
from partners.program.access import DeskRequest, teachers


@require_GET
@teachers
def who_asks(request: DeskRequest) -> HttpResponse:
    lines = coming(request.desk)
    met = [line for line in lines if line.clashes]
    return render(request, "asking/who_asks.html", {"coming": lines, "met": met, "lately": lately(request.desk)})
