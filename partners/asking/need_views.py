"""The wish list with how far each need is."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from partners.asking.progress import progress
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened
from partners.wish_list.models import NeedState

SHOWN = 200


@require_GET
@readers(Opened.WISH_LIST)
def need_list(request: DeskRequest) -> HttpResponse:
    needs = request.desk.needs.select_related("school", "project")
    context = {
        "open": progress(request.desk, needs.open().order_by("needed_by", "pk")[:SHOWN]),
        "enough": needs.filter(state=NeedState.ENOUGH).order_by("-updated_at")[:SHOWN],
    }
    return render(request, "wish_list/need_list.html", context)
