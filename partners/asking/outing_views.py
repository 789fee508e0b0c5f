"""Outings: planning one, printing its sheets, going from place to place; and "may I ask now?"."""

from __future__ import annotations

from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods

from partners.asking.actions import plan_places
from partners.asking.looked_at import worked_out
from partners.asking.may_ask_form import MayAskForm
from partners.asking.outing_form import OutingForm
from partners.asking.outing_page import draft_of, lay_out, need_choices
from partners.asking.stops import stops_shown
from partners.directory.moved import partner_at
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import lacking

PER_PAGE = 30


@require_GET
@teachers
def outing_list(request: DeskRequest) -> HttpResponse:
    counts = {"places": Count("stops"), "visited": Count("stops", filter=Q(stops__visit__isnull=False))}
    rows = request.desk.outings.select_related("school").annotate(**counts).order_by("-day", "-pk")
    page = Paginator(rows, PER_PAGE).get_page(request.GET.get("page"))
    return render(request, "asking/outing_list.html", {"page": page})


@require_http_methods(["GET", "POST"])
@teachers
def outing_new(request: DeskRequest) -> HttpResponse:
    """Everything chosen so far stands in the address; only "Save the outing" saves."""
    desk, saving = request.desk, request.method == "POST"
    address = request.POST if saving else request.GET
    form = OutingForm(address if "day" in address else None, desk=desk, initial={"day": desk.day})
    draft = draft_of(desk, form, address)
    if saving and form.is_valid() and not draft.partners and not draft.new:
        form.add_error("add", _("Choose at least one place."))
    if saving and form.is_valid():
        outing = plan_places(desk=desk, draft=draft)
        count = len(draft.partners) + len(draft.new)
        words = ngettext("Outing planned: %(count)d place.", "Outing planned: %(count)d places.", count)
        said(request, words % {"count": count})
        return redirect(outing)
    if form.is_bound and form.is_valid():
        form = OutingForm(desk=desk, initial={"day": draft.day, "school": draft.school, "need": draft.need})
    chosen, suggested = lay_out(desk, draft)
    context = {"form": form, "draft": draft, "chosen": chosen, "suggested": suggested, "needs": need_choices(desk)}
    context["standing"] = lacking(desk, draft.school, ApprovalFor.ASKING, draft.day)
    return render(request, "asking/outing_form.html", context)


@require_GET
@teachers
def outing_detail(request: DeskRequest, pk: int) -> HttpResponse:
    outing = get_object_or_404(request.desk.outings.select_related("school"), pk=pk)
    return render(request, "asking/outing_detail.html", {"outing": outing, "places": stops_shown(request.desk, outing)})


@require_GET
@readers(Opened.PARTNERS)
def may_ask_now(request: DeskRequest, pk: int) -> HttpResponse:
    """The verdict for one partner, with everything it was worked out from."""
    desk = request.desk
    partner = partner_at(desk, pk)
    form = MayAskForm(request.GET or None, desk=desk)
    chosen = form.cleaned_data if form.is_bound and form.is_valid() else {}
    context = worked_out(desk, partner, chosen.get("need"), chosen.get("school"))
    return render(request, "asking/may_ask.html", {**context, "form": form, "partner": partner})
