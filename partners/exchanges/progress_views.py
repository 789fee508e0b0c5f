"""Counting in the room, on a phone: what each class finished and spoiled, one tap each."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from partners.exchanges import count_actions
from partners.exchanges.plan_actions import moved, shares_of
from partners.exchanges.plan_words import moved_words
from partners.exchanges.progress import NUMBER, NUMBER_SPOILED, SPOILS, counted, progress
from partners.exchanges.views import rows
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers


@require_GET
@teachers
def trade_progress(request: DeskRequest, pk: int) -> HttpResponse:
    trade = get_object_or_404(rows(request), pk=pk)
    return render(request, "exchanges/trade_progress.html", progress(request.desk, trade))


@require_POST
@teachers
def class_tally(request: DeskRequest, pk: int) -> HttpResponse:
    """One tap: so many done or spoiled more."""
    classes = request.desk.trade_classes.filter(trade__in=request.desk.trades, trade__called_off_on=None)
    row = get_object_or_404(classes.select_related("school_class", "trade__partner"), pk=pk)
    tap = request.POST.get("tap", "")
    count = counted(row, tap, request.POST.get("count", "").strip())
    if not count:
        typed = _("Type how many, for %(class)s: a whole number up to 9,999.")
        words = typed if tap in (NUMBER, NUMBER_SPOILED) else _("Nothing is left to count for %(class)s.")
        messages.info(request, words % {"class": row.school_class})
        return redirect("exchanges:trade-progress", row.trade_id)
    name = "spoiled" if tap in SPOILS else "done"
    before = shares_of(row.trade)
    count_actions.tally(desk=request.desk, trade_class=row, day=request.desk.day, **{name: count})
    words = _("%(class)s: %(count)d spoiled.") if name == "spoiled" else _("%(class)s: %(count)d done.")
    told = [words % {"class": row.school_class, "count": count}]
    changed = list(moved(before, shares_of(row.trade)).values())
    if changed:
        told += [_("What is left is shared anew."), moved_words(changed)]
    said(request, " ".join(told))
    return redirect("exchanges:trade-progress", row.trade_id)


@require_POST
@teachers
def tally_take_back(request: DeskRequest, pk: int) -> HttpResponse:
    tallies = request.desk.trade_tallies.filter(trade_class__trade__in=request.desk.trades)
    tally = get_object_or_404(tallies.select_related("trade_class"), pk=pk)
    trade_id = tally.trade_class.trade_id
    count_actions.take_back_tally(desk=request.desk, tally=tally)
    said(request, _("The count is taken back."))
    return redirect("exchanges:trade-progress", trade_id)
