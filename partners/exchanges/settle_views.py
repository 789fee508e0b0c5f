"""What happens to a trade: its papers, its deliveries, its show, and how it ends."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from partners.exchanges import actions, count_actions
from partners.exchanges.delivery_forms import ApproveForm, BackForm, DeliverForm
from partners.exchanges.trade_page import context
from partners.exchanges.views import rows
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.promises.models import Part, Promise, Settled
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
    count, back = form.cleaned_data["quantity"], form.cleaned_data.get("went_back") or 0
    told: dict[str, Any] = {"desk": request.desk, "day": form.cleaned_data["day"], "part": "part" in request.POST}
    if count:
        count_actions.deliver_part(promise=promise, quantity=count, went_back=back, **told)
    else:
        count_actions.give_back(trade=promise.trade, count=back, **told)
    said(request, written_down(promise, count, back))
    return redirect(promise)


def written_down(promise: Promise, count: int | None, back: int) -> str:
    """What changed hands; where plain items went back, also whether that was all."""
    facts = {"count": count, "what": promise.what}
    told = [_("Written down: %(count)s %(what)s.") % facts] if count else []
    if back:
        told.append(went_back(back))
        promise.refresh_from_db(fields=["settled_how"])
        if promise.settled_how == Settled.THAT_WAS_ALL:
            told.append(_("Nothing more of %(what)s is waited for.") % facts)
    return " ".join(told)


def went_back(count: int) -> str:
    return ngettext("%(count)d plain one went back.", "%(count)d plain ones went back.", count) % {"count": count}


@require_POST
@teachers
def trade_back(request: DeskRequest, pk: int) -> HttpResponse:
    """Plain items went back after all that was made had been handed over, or the trade was called off."""
    trade = get_object_or_404(rows(request), pk=pk)
    form = BackForm(request.POST, desk=request.desk, most=trade.could_go_back)
    if not form.is_valid():
        return render(request, "exchanges/trade_detail.html", context(request.desk, trade, back=form))
    count = form.cleaned_data["went_back"]
    count_actions.give_back(desk=request.desk, trade=trade, day=form.cleaned_data["day"], count=count)
    said(request, went_back(count))
    return redirect(trade)


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
