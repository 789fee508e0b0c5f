"""The wish list with how far each need is."""

from __future__ import annotations

from django.db.models import F
from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

from partners.asking.progress import progress
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened
from partners.wish_list.models import NeedState

A_PAGE = 100
ENOUGH_SHOWN = 50


@require_GET
@readers(Opened.WISH_LIST)
def need_list(request: DeskRequest) -> HttpResponse:
    needs = request.desk.needs.select_related("school")
    # A need without a day stands last, on both database engines.
    soonest = needs.open().order_by(F("needed_by").asc(nulls_last=True), "pk")
    page = LazyPaginator(soonest, A_PAGE).get_page(request.GET.get("page"))
    context = {
        "page": page,
        "open": progress(request.desk, page.object_list),
        "enough": needs.filter(state=NeedState.ENOUGH).order_by("-updated_at")[:ENOUGH_SHOWN],
        "reads_projects": request.desk.reads(Opened.PROJECTS),
    }
    return render(request, "wish_list/need_list.html", context)
