"""What happens to a trade: its papers, its deliveries, its show, and how it ends."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.exchanges import actions, count_actions
from partners.exchanges.delivery_forms import ApproveForm, DeliverForm
from partners.exchanges.trade_page import context
from partners.exchanges.views import rows
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.promises.models import Part
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import standing


@require_http_methods(["GET", "POST"])
@teachers
def trade_approve(request: DeskRequest, pk: int) -> HttpResponse:
    trade = get_object_or_404(rows(request).going_on(), pk=pk)
    form = ApproveForm(request.POST or None, desk=request.desk, trade=trade)
    if request.method == "POST" and form.is_valid():
        values = dict(form.cleaned_data)
        known = values.pop("approval")
        if known is not None:
            actions.approve(desk=request.desk, trade=trade, approval=known)
        else:
            actions.approve_anew(desk=request.desk, trade=trade, **values)
        said(request, _("The approval is recorded."))
        return redirect(trade)
    told = standing(request.desk, trade.school, ApprovalFor.TRADES)
    return render(request, "exchanges/trade_approve.html", {"form": form, "trade": trade, "standing": told})


@require_http_methods(["GET", "POST"])
@teachers
def trade_call_off(request: DeskRequest, pk: int) -> HttpResponse:
    trade = get_object_or_404(rows(request).going_on(), pk=pk)
    if request.method == "POST":
        actions.call_off(desk=request.desk, trade=trade, day=request.desk.day)
        said(request, _("The trade with %(partner)s is called off.") % {"partner": trade.partner})
        return redirect(trade)
    left = [one for one in trade.promises.all() if one.settled_on is None]
    return render(request, "exchanges/trade_call_off.html", {"trade": trade, "left": left})


def part_of(request: DeskRequest, pk: int) -> Any:
    """An open part of a trade that is made or supplied; what they give comes as a gift."""
    parts = request.desk.promises.open().filter(part__in=[Part.MAKE, Part.PLAIN], trade__in=request.desk.trades)
    return get_object_or_404(parts.select_related("partner", "trade"), pk=pk)


@require_POST
@teachers
def part_deliver(request: DeskRequest, pk: int) -> HttpResponse:
    """Finished items or plain items changed hands, all that was left or a part of it."""
    promise = part_of(request, pk)
    form = DeliverForm(request.POST, desk=request.desk, promise=promise)
    if not form.is_valid():
        trade = get_object_or_404(rows(request), pk=promise.trade_id)
        return render(request, "exchanges/trade_detail.html", context(request.desk, trade, form))
    part = "part" in request.POST
    count_actions.deliver_part(desk=request.desk, promise=promise, part=part, **form.cleaned_data)
    said(
        request, _("Written down: %(count)s %(what)s.") % {"count": form.cleaned_data["quantity"], "what": promise.what}
    )
    return redirect(promise)


@require_POST
@teachers
def part_close(request: DeskRequest, pk: int, act: str) -> HttpResponse:
    """Nothing more of it is waited for."""
    if act not in ("that-was-all", "never-came"):
        raise Http404
    promise = part_of(request, pk)
    count_actions.close_part(desk=request.desk, promise=promise, day=request.desk.day, all_of_it=act == "that-was-all")
    said(request, _("Nothing more of %(what)s is waited for.") % {"what": promise.what})
    return redirect(promise)
