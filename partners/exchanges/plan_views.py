"""The plan by class: choosing classes, seeing it at a glance, changing it by hand, making it anew."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.exchanges import plan_actions as actions
from partners.exchanges.models import Trade
from partners.exchanges.offers import OfferKind
from partners.exchanges.plan_forms import ClassesForm, ShareForm, outside, share_form
from partners.exchanges.plan_page import plan_context
from partners.exchanges.plan_words import day_words, moved_words
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened


def open_trades(request: DeskRequest) -> Any:
    return request.desk.trades.going_on().select_related("partner")


@require_GET
@readers(Opened.TRADES)
def trade_plan(request: DeskRequest, pk: int) -> HttpResponse:
    trades = request.desk.trades.select_related("partner").prefetch_related("promises__deliveries")
    return shown(request, get_object_or_404(trades, pk=pk))


def shown(request: DeskRequest, trade: Trade, wrong: tuple[int, ShareForm] | None = None) -> HttpResponse:
    try:
        context = plan_context(request.desk, trade, wrong)
    except PlainError as error:
        context = {"trade": trade, "cannot": gettext(error.sentence) % error.facts}
    return render(request, "exchanges/trade_plan.html", {**context, "form": wrong[1] if wrong else None})


@require_http_methods(["GET", "POST"])
@teachers
def trade_classes(request: DeskRequest, pk: int) -> HttpResponse:
    """Which classes take part. A button that ticks many of them saves nothing."""
    trade = get_object_or_404(open_trades(request), pk=pk)
    form = ClassesForm(request.POST or None, desk=request.desk, trade=trade)
    if "tick" in request.POST:
        ticked = form.ticked(request.POST["tick"])
        form = ClassesForm(None, desk=request.desk, trade=trade, initial=as_initial(form, ticked))
    elif request.method == "POST" and form.is_valid():
        try:
            classes = [*form.chosen(), *outside(request.desk, trade)]
            made = actions.choose_classes(desk=request.desk, trade=trade, classes=classes)
        except PlainError as error:
            form.add_error(None, gettext(error.sentence) % error.facts)
        else:
            words = ngettext("%(count)d class takes part.", "%(count)d classes take part.", len(made.rows))
            said(request, words % {"count": len(made.rows)})
            return redirect("exchanges:trade-plan", trade.pk)
    leave_url = reverse("exchanges:trade-plan", args=[trade.pk])
    return render(request, "exchanges/trade_classes.html", {"form": form, "trade": trade, "leave_url": leave_url})


def as_initial(form: ClassesForm, data: dict[str, Any]) -> dict[str, Any]:
    """What was typed, shown again without being judged: a class that is not named is not ticked, also a stored one."""
    return {name: data.get(name, "") for name in form.fields}


@require_POST
@teachers
def trade_share(request: DeskRequest, pk: int) -> HttpResponse:
    """A share set by hand, or worked out again."""
    own = request.desk.trade_classes.filter(school_class__in=request.desk.classes)
    row = get_object_or_404(own.select_related("school_class"), pk=pk)
    trade = get_object_or_404(open_trades(request), pk=row.trade_id)
    by_hand = "work-out" not in request.POST
    form = share_form(request.desk, row, request.POST)
    if by_hand and not form.is_valid():
        return shown(request, trade, (row.pk, form))
    share = form.cleaned_data["share"] if by_hand else None
    seen = form.cleaned_data.get("seen") if form.is_valid() else None
    try:
        moved = actions.set_share(desk=request.desk, trade_class=row, share=share, seen=seen)
    except PlainError as error:
        form.add_error("share", gettext(error.sentence) % error.facts)
        return shown(request, trade, (row.pk, form))
    row.refresh_from_db()
    facts = {"label": row.school_class.label, "share": row.share, "moved": moved_words(moved)}
    said(request, _("%(label)s makes %(share)d. %(moved)s") % facts)
    return redirect("exchanges:trade-plan", trade.pk)


@require_POST
@teachers
def trade_replan(request: DeskRequest, pk: int) -> HttpResponse:
    """What is left is shared anew over the classes that have room for it."""
    trade = get_object_or_404(open_trades(request), pk=pk)
    before = actions.shares_of(trade)
    try:
        actions.replan(desk=request.desk, trade=trade)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
        moved = list(actions.moved(before, actions.shares_of(trade)).values())
        if moved:
            said(request, _("Planned anew. %(moved)s") % {"moved": moved_words(moved)})
        else:
            messages.info(request, _("The plan stands so already. Nothing was changed."))
    return redirect("exchanges:trade-plan", trade.pk)


@require_POST
@teachers
def trade_offer(request: DeskRequest, pk: int) -> HttpResponse:
    """Do what the plan offers to make it fit."""
    trade = get_object_or_404(open_trades(request), pk=pk)
    kind = request.POST.get("kind", "")
    if kind not in {str(one) for one in OfferKind}:
        raise Http404
    try:
        taken = actions.take_offer(desk=request.desk, trade=trade, kind=kind)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
        return redirect("exchanges:trade-plan", trade.pk)
    if taken is None:
        messages.info(request, _("The plan has changed meanwhile, and this is not needed any more."))
    else:
        offer, due = taken
        facts = {"count": offer.at_least, "day": day_words(due), "partner": trade.partner}
        if offer.kind is OfferKind.FEWER:
            said(request, _("The others have taken it over. %(count)d by %(day)s, as promised.") % facts)
        else:
            said(request, _("Promised now: %(count)d by %(day)s. Tell %(partner)s, and print the memo anew.") % facts)
    return redirect("exchanges:trade-plan", trade.pk)
