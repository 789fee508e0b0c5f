"""Trades: agreeing on one, its page, the list, and what a year of them came to."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.exchanges import actions
from partners.exchanges.counts import MADE, PART_OF, deliveries, this_year, year_counts, years
from partners.exchanges.forms import TradeForm
from partners.exchanges.give_forms import give_edit_forms
from partners.exchanges.like_that import agree_form, asked_like, last_with
from partners.exchanges.new_trade import of_trade, page
from partners.exchanges.tables import DeliveryTable, TradeTable, states
from partners.exchanges.trade_page import context
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

WITH = ("partner", "school", "project", "visit", "approval")


def rows(request: DeskRequest) -> Any:
    return request.desk.trades.select_related(*WITH).prefetch_related("promises__deliveries")


@require_GET
@readers(Opened.TRADES)
def trade_list(request: DeskRequest) -> HttpResponse:
    known = states()
    state = request.GET.get("state", "")
    state = state if state in known else "open"
    found = getattr(request.desk.trades, known[state].method)() if known[state].method else request.desk.trades
    table = configured(request, TradeTable(found.select_related("partner", "school").prefetch_related("promises")))
    shown = {"table": table, "state": state, "states": known, "years": years(request.desk)}
    return render(request, "exchanges/trade_list.html", shown)


@require_GET
@readers(Opened.TRADES)
def trade_counts(request: DeskRequest) -> HttpResponse:
    """The deliveries behind one number of one year."""
    side, typed = request.GET.get("side", MADE), request.GET.get("year", "")
    if side not in PART_OF or not (typed == "" or (typed.isascii() and typed.isdecimal() and len(typed) == 4)):
        raise Http404
    year = int(typed or this_year(request.desk))
    if not 1900 <= year <= 9000:
        raise Http404
    found = deliveries(request.desk, year, side).select_related("promise__partner", "promise__trade")
    shown = {"table": configured(request, DeliveryTable(found)), "side": side}
    return render(request, "exchanges/trade_counts.html", shown | {"year": year_counts(request.desk, year)})


@require_GET
@readers(Opened.TRADES)
def trade_detail(request: DeskRequest, pk: int) -> HttpResponse:
    gifts = "promises__deliveries__gift_line__gift__thanks"
    trade = get_object_or_404(rows(request).prefetch_related(gifts), pk=pk)
    return render(request, "exchanges/trade_detail.html", context(request.desk, trade))


@require_http_methods(["GET", "POST"])
@teachers
def trade_new(request: DeskRequest) -> HttpResponse:
    """A new trade; with ?like= one that begins like another."""
    desk, data = request.desk, request.POST or None
    like = asked_like(desk, request.GET)
    form = agree_form(desk, data, request.GET, like)
    if request.method == "POST" and form.is_valid():
        told = form.agreed()
        if form.cleaned_data["attach"]:
            told["approval"] = actions.standing_approval(desk, told["school"], told["agreed_on"])
        try:
            trade = actions.agree(desk=desk, **told)
        except PlainError as error:
            form.add_error(None, _(error.sentence) % error.facts)
        else:
            said(
                request,
                _("Agreed with %(partner)s. Both sides stand below with their days.") % {"partner": trade.partner},
            )
            return redirect(trade)
    known = {"like": like, "before": None if like or data else last_with(desk, form.initial["partner"])}
    return render(request, "exchanges/trade_form.html", page(desk, form) | known)


@require_http_methods(["GET", "POST"])
@teachers
def trade_edit(request: DeskRequest, pk: int) -> HttpResponse:
    desk = request.desk
    trade = get_object_or_404(rows(request), pk=pk)
    data = request.POST or None
    gives = give_edit_forms(desk, trade, data)
    form = TradeForm(data, desk=desk, instance=trade, initial=of_trade(trade), gives=gives)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(rows(request), pk=pk)
        try:
            actions.edit_trade(desk=desk, trade=stored, seen=form.version_seen, **form.agreed())
        except PlainError as error:
            form.add_error(None, _(error.sentence) % error.facts)
        else:
            said(
                request,
                _("The trade with %(partner)s is changed, and both sides with it.") % {"partner": stored.partner},
            )
            return redirect(stored)
    return render(request, "exchanges/trade_form.html", page(desk, form) | {"trade": trade})
