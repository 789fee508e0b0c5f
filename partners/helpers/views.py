"""Helpers: the list, one helper's page, what the office says of them, who is not called yet, hours."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

from partners.ground.csv_out import csv_response
from partners.ground.narrowed import narrowed
from partners.ground.put_together import row_at
from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.ground.tables import configured
from partners.helpers import actions
from partners.helpers.filters import HelperFilter
from partners.helpers.forms import ClearanceForm, HelperForm
from partners.helpers.hours import hours_of, hours_page
from partners.helpers.models import Helper
from partners.helpers.out import HEADER, PRIVATE, helper_rows
from partners.helpers.own import own_turns
from partners.helpers.same_helper import LikelyHelper, likely_helpers
from partners.helpers.tables import HelperTable, clearance_words
from partners.helpers.words import days_words, jobs_words, where_words
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import Desk
from partners.program.models import Opened

SHOWN = 30
TO_CALL_SHOWN = 40


@require_GET
@readers(Opened.HELPERS)
def helper_list(request: DeskRequest) -> HttpResponse:
    chosen = HelperFilter(request.GET, desk=request.desk)
    table = configured(request, HelperTable(chosen.qs, desk=request.desk))
    context = {"table": table, "filter": chosen, "narrowed": narrowed(request, chosen)}
    return render(request, "helpers/helper_list.html", context)


@require_GET
@readers(Opened.HELPERS)
def helper_export(request: DeskRequest) -> HttpResponseBase:
    """The list as it is narrowed, as a file; phones, e-mails and notes only for who writes."""
    desk = request.desk
    rows = helper_rows(HelperFilter(request.GET, desk=desk).qs, desk.day, private=desk.writes)
    return csv_response("helpers.csv", [*HEADER, *PRIVATE] if desk.writes else HEADER, rows)


@require_http_methods(["GET", "POST"])
@teachers
def helper_new(request: DeskRequest) -> HttpResponse:
    form = HelperForm(request.POST or None, desk=request.desk, initial={"at_school": True})
    likely: list[LikelyHelper] = []
    if request.method == "POST" and form.is_valid():
        values = form.values()
        known = {name: values[name] for name in ("name", "phone", "email")}
        likely = [] if "new_one" in request.POST else likely_helpers(request.desk, **known)
        if not likely:
            helper = actions.add_helper(desk=request.desk, **values)
            said(request, _("%(helper)s is in the book.") % {"helper": helper})
            return redirect(helper)
    context = {"form": form, "likely": likely, "heading": _("New helper")}
    return render(request, "helpers/helper_form.html", context)


@require_GET
@readers(Opened.HELPERS)
def helper_detail(request: DeskRequest, pk: int) -> HttpResponse:
    helper = row_at(request.desk, request.desk.helpers.select_related("school", "batch"), pk)
    return render(request, "helpers/helper_detail.html", shown(request, helper))


def shown(request: DeskRequest, helper: Helper) -> dict[str, Any]:
    """What the page of a helper says: what they said, sessions, kits, hours."""
    desk = request.desk
    turns = own_turns(desk).filter(helper=helper).select_related("session__school")
    return {
        "helper": helper,
        "jobs": jobs_words(helper.jobs),
        "days": days_words(helper.days),
        "where": where_words(helper),
        "clearance": clearance_words(helper, desk.day),
        "is_cleared": helper.is_cleared_on(desk.day),
        "turns": turns.order_by("-session__day", "-pk")[:SHOWN],
        "kits": desk.kits.filter(helper=helper).order_by("-out_on", "-pk")[:SHOWN],
        "hours": hours_of(desk, helper),
        "twice": written_twice(desk, helper) if desk.writes and not helper.forgotten_on else [],
    }


def written_twice(desk: Desk, helper: Helper) -> list[LikelyHelper]:
    """Other rows that may be this helper's, too."""
    found = likely_helpers(desk, name=helper.name, phone=helper.phone, email=helper.email)
    return [one for one in found if one.helper.pk != helper.pk]


@require_http_methods(["GET", "POST"])
@teachers
def helper_edit(request: DeskRequest, pk: int) -> HttpResponse:
    helper = row_at(request.desk, request.desk.helpers.filter(forgotten_on=None), pk)
    form = HelperForm(request.POST or None, desk=request.desk, instance=helper)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.helpers, pk=pk)
        actions.edit_helper(desk=request.desk, helper=stored, seen=form.version_seen, **form.values())
        said(request, _("%(helper)s is changed.") % {"helper": stored})
        return redirect(stored)
    stored = request.desk.helpers.get(pk=pk) if request.method == "POST" else helper
    context = {"form": form, "helper": stored, "heading": _("Change %(helper)s") % {"helper": stored}}
    return render(request, "helpers/helper_form.html", context)


@require_http_methods(["GET", "POST"])
@teachers
def helper_clearance(request: DeskRequest, pk: int) -> HttpResponse:
    """Yes, until when, confirmed by whom; the paper is never kept here."""
    helper = get_object_or_404(request.desk.helpers.select_related("school"), pk=pk, forgotten_on=None)
    form = ClearanceForm(request.POST or None, desk=request.desk, instance=helper)
    if request.method == "POST" and form.is_valid():
        stored, values = get_object_or_404(request.desk.helpers, pk=pk), form.values()
        until, by = values["cleared_until"], values["cleared_by"]
        told = {"cleared": values["cleared"], "until": until, "by": by, "seen": form.version_seen}
        actions.clear(desk=request.desk, helper=stored, **told)
        said(request, f"{stored}: {clearance_words(stored, request.desk.day)}.")
        return redirect(stored)
    rules = request.desk.welcomes.exclude(rules="").select_related("school").order_by("school__name")
    if helper.school_id:
        rules = rules.filter(school=helper.school_id)
    return render(request, "helpers/helper_clearance.html", {"form": form, "helper": helper, "rules": rules})


@require_POST
@teachers
def helper_called(request: DeskRequest, pk: int) -> HttpResponse:
    helper = get_object_or_404(request.desk.helpers.active(), pk=pk)
    if helper.first_called_on is None:
        actions.called(desk=request.desk, helper=helper, day=request.desk.day)
        said(request, _("Called: %(helper)s.") % {"helper": helper})
    return redirect(safe_return(request, "helpers:helper-to-call"))


@require_POST
@teachers
def helper_stop(request: DeskRequest, pk: int) -> HttpResponse:
    helper = get_object_or_404(request.desk.helpers, pk=pk, forgotten_on=None)
    if helper.stopped_on is None:
        actions.stop(desk=request.desk, helper=helper, day=request.desk.day)
        said(request, _("%(helper)s is not asked any more; the hours stay.") % {"helper": helper})
    return redirect(helper)


@require_POST
@teachers
def helper_start(request: DeskRequest, pk: int) -> HttpResponse:
    helper = get_object_or_404(request.desk.helpers, pk=pk, forgotten_on=None)
    if helper.stopped_on is not None:
        actions.start_again(desk=request.desk, helper=helper)
        said(request, _("%(helper)s helps again.") % {"helper": helper})
    return redirect(helper)


@require_GET
@teachers
def helper_to_call(request: DeskRequest) -> HttpResponse:
    """Whose slip came and who was not called yet, in the order of the slips."""
    waiting = request.desk.helpers.not_yet_called().select_related("batch", "school").order_by("pk")
    page = LazyPaginator(waiting, TO_CALL_SHOWN).get_page(request.GET.get("page"))
    lines = [
        {"helper": one, "jobs": jobs_words(one.jobs), "days": days_words(one.days), "where": where_words(one)}
        for one in page.object_list
    ]
    return render(request, "helpers/helper_to_call.html", {"page": page, "lines": lines})


@require_GET
@readers(Opened.HELPERS)
def hour_list(request: DeskRequest) -> HttpResponse:
    return render(request, "helpers/hour_list.html", hours_page(request.desk))
