"""Shows: planned, laid out back from the opening, and what the jobs took in the end."""

from __future__ import annotations

import re

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.said import said
from partners.helpers import show_actions as actions
from partners.helpers.show_forms import MinutesForm, ShowForm
from partners.helpers.show_models import Show
from partners.helpers.show_page import averages, show_page
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

PER_PAGE = 30
MOST_HOURS = 99


@require_GET
@readers(Opened.HELPERS)
def show_list(request: DeskRequest) -> HttpResponse:
    page = Paginator(request.desk.shows.select_related("school"), PER_PAGE).get_page(request.GET.get("page"))
    return render(request, "helpers/show_list.html", {"page": page})


@require_http_methods(["GET", "POST"])
@teachers
def show_new(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    form = ShowForm(request.POST or None, desk=desk, instance=Show(), averages=averages(desk))
    if request.method == "POST" and form.is_valid():
        show = actions.add_show(desk=desk, jobs=form.jobs(), **form.values())
        said(request, _("Show planned: %(title)s.") % {"title": show})
        return redirect(show)
    return render(request, "helpers/show_form.html", {"form": form})


@require_GET
@readers(Opened.HELPERS)
def show_detail(request: DeskRequest, pk: int) -> HttpResponse:
    """`hours` in the address asks how many people are needed to be done in that time."""
    show = get_object_or_404(request.desk.shows.select_related("school", "project"), pk=pk)
    typed = request.GET.get("hours", "")
    hours = int(typed) if re.fullmatch(r"[0-9]{1,2}", typed) and int(typed) else None
    context = {"show": show, "hours": hours, "typed_hours": typed, **show_page(request.desk, show, hours)}
    return render(request, "helpers/show_detail.html", context)


@require_http_methods(["GET", "POST"])
@teachers
def show_edit(request: DeskRequest, pk: int) -> HttpResponse:
    desk = request.desk
    show = get_object_or_404(desk.shows, pk=pk)
    called = show.title
    form = ShowForm(request.POST or None, desk=desk, instance=show, averages=averages(desk, apart=show))
    if request.method == "POST" and form.is_valid():
        actions.edit_show(desk=desk, show=show, jobs=form.jobs(), seen=form.version_seen, **form.values())
        said(request, _("Show changed: %(title)s.") % {"title": show})
        return redirect(show)
    return render(request, "helpers/show_form.html", {"form": form, "show": show, "called": called})


@require_POST
@teachers
def show_remove(request: DeskRequest, pk: int) -> HttpResponse:
    show = get_object_or_404(request.desk.shows, pk=pk)
    try:
        actions.remove_show(desk=request.desk, show=show)
    except ProtectedError:
        messages.warning(request, _("Sessions belong to this show, so it stays."))
        return redirect("helpers:show-edit", pk=pk)
    said(request, _("Show taken out: %(title)s.") % {"title": show})
    return redirect("helpers:show-list")


@require_http_methods(["GET", "POST"])
@teachers
def show_minutes(request: DeskRequest, pk: int) -> HttpResponse:
    """What the jobs really took."""
    show = get_object_or_404(request.desk.shows, pk=pk)
    form = MinutesForm(request.POST or None, desk=request.desk, rows=list(show.jobs.all()))
    if request.method == "POST" and form.is_valid():
        actions.record_minutes(desk=request.desk, show=show, took=form.took())
        said(request, _("Written down. The next show is planned with the average."))
        return redirect(show)
    return render(request, "helpers/show_minutes.html", {"form": form, "show": show})
