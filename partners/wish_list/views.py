"""Changing the wish list. The list itself is shown by the asking room, which knows how far each need is."""

from __future__ import annotations

from django.contrib import messages
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.wish_list import actions
from partners.wish_list.forms import CannotUseForm, NeedForm
from partners.wish_list.models import CannotUse, Need
from partners.wish_list.to_begin_with import CANNOT_USE


@require_http_methods(["GET", "POST"])
@teachers
def need_new(request: DeskRequest) -> HttpResponse:
    initial = {"project": request.GET.get("project", "")}
    form = NeedForm(request.POST or None, desk=request.desk, instance=Need(), initial=initial)
    if request.method == "POST" and form.is_valid():
        need = actions.add_need(desk=request.desk, **form.values())
        said(request, _("On the wish list: %(what)s.") % {"what": need})
        return redirect("wish_list:need-list")
    return render(request, "wish_list/need_form.html", {"form": form})


@require_http_methods(["GET", "POST"])
@teachers
def need_edit(request: DeskRequest, pk: int) -> HttpResponse:
    need = get_object_or_404(request.desk.needs, pk=pk)
    called = need.what
    form = NeedForm(request.POST or None, desk=request.desk, instance=need)
    if request.method == "POST" and form.is_valid():
        actions.edit_need(desk=request.desk, need=need, seen=form.version_seen, **form.values())
        said(request, _("%(what)s is changed.") % {"what": need})
        return redirect("wish_list:need-list")
    return render(request, "wish_list/need_form.html", {"form": form, "need": need, "called": called})


@require_POST
@teachers
def need_enough(request: DeskRequest, pk: int) -> HttpResponse:
    need = get_object_or_404(request.desk.needs, pk=pk)
    actions.enough(desk=request.desk, need=need)
    said(request, _("Enough %(what)s, thank you.") % {"what": need})
    return redirect("wish_list:need-list")


@require_POST
@teachers
def need_open_again(request: DeskRequest, pk: int) -> HttpResponse:
    need = get_object_or_404(request.desk.needs, pk=pk)
    actions.open_again(desk=request.desk, need=need)
    said(request, _("%(what)s: wanted again.") % {"what": need})
    return redirect("wish_list:need-list")


@require_POST
@teachers
def need_remove(request: DeskRequest, pk: int) -> HttpResponse:
    need = get_object_or_404(request.desk.needs, pk=pk)
    try:
        actions.remove_need(desk=request.desk, need=need)
    except ProtectedError:
        messages.warning(request, _("Asks, promises or gifts are about it, so it stays. Say “enough” instead."))
    else:
        said(request, _("Off the wish list: %(what)s.") % {"what": need})
    return redirect("wish_list:need-list")


@require_http_methods(["GET", "POST"])
@teachers
def cannot_use(request: DeskRequest) -> HttpResponse:
    """What is kindly refused; entries to begin with are offered while they are not listed."""
    listed = list(request.desk.cannot_use)
    names = {thing.what for thing in listed}
    offered = [(str(what), str(why)) for what, why in CANNOT_USE if str(what) not in names]
    if "all" in request.POST:
        actions.add_often_refused(desk=request.desk, things=offered)
        said(request, _("All are listed."))
        return redirect("wish_list:cannot-use-edit")
    form = CannotUseForm(request.POST or None, desk=request.desk, instance=CannotUse())
    if request.method == "POST" and form.is_valid():
        actions.add_cannot_use(desk=request.desk, **form.values())
        said(request, _("Saved."))
        return redirect("wish_list:cannot-use-edit")
    return render(request, "wish_list/cannot_use.html", {"form": form, "listed": listed, "offered": offered})


@require_POST
@teachers
def cannot_use_remove(request: DeskRequest, pk: int) -> HttpResponse:
    thing = get_object_or_404(request.desk.cannot_use, pk=pk)
    actions.remove_cannot_use(desk=request.desk, thing=thing)
    said(request, _("Taken out."))
    return redirect("wish_list:cannot-use-edit")
