"""Something arrived: writing it down, its page, and what still has to happen with it."""

from __future__ import annotations

from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.gifts import actions
from partners.gifts.actions import Line
from partners.gifts.arrival import prefilled, promise_of, promised_about_now
from partners.gifts.families import family_gifts, family_money, thanked_by_school
from partners.gifts.filters import GiftFilter
from partners.gifts.forms import ArrivalForm, GiftForm
from partners.gifts.gift_page import context
from partners.gifts.line_forms import edit_forms, line_forms
from partners.gifts.models import Gift
from partners.gifts.out import HEADER, gift_rows
from partners.gifts.tables import FamilyTable, GiftTable
from partners.ground.csv_out import csv_response
from partners.ground.narrowed import narrowed
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened


@require_http_methods(["GET", "POST"])
@teachers
def gift_new(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    known = prefilled(desk, request.GET)
    data = request.POST or None
    lines = line_forms(desk, data, known.lines)
    form = ArrivalForm(data, desk=desk, initial=known.values, lines=lines)
    if request.method == "POST" and form.is_valid():
        try:
            gift = receive(request, form)
        except PlainError as error:
            form.add_error(None, _(error.sentence) % error.facts)
        else:
            said(request, _("Written down: %(what)s from %(giver)s.") % {"what": gift.what, "giver": gift.giver})
            return redirect(gift)
    promise = promise_of(desk, request.POST.get("promise", "")) if data else known.promise
    shown = {"form": form, "promise": promise, "promised": [] if promise else promised_about_now(desk)}
    return render(request, "gifts/gift_new.html", shown)


def receive(request: DeskRequest, form: ArrivalForm) -> Gift:
    """Save a valid form. The promise it was opened from is fulfilled by the first thing, or by the money."""
    values = form.values()
    promise = form.cleaned_data["promise"]
    typed = [line for line in form.lines if line.is_there]
    lines = [line.line(promise if place == 0 else None) for place, line in enumerate(typed)]
    if promise is not None and not lines:
        lines = [Line(description=promise.what, promise=promise)]
    partner = form.cleaned_data["partner"]
    given = {**values, "partner": partner, "partner_kind": form.partner_kind}
    return actions.receive(desk=request.desk, **given, lines=lines)


@require_GET
@readers(Opened.GIFTS)
def gift_detail(request: DeskRequest, pk: int) -> HttpResponse:
    gift = get_object_or_404(request.desk.gifts.select_related("partner", "school", "project"), pk=pk)
    return render(request, "gifts/gift_detail.html", context(request.desk, gift))


@require_http_methods(["GET", "POST"])
@teachers
def gift_edit(request: DeskRequest, pk: int) -> HttpResponse:
    desk = request.desk
    gift = get_object_or_404(desk.gifts.select_related("partner"), pk=pk)
    data = request.POST or None
    form = GiftForm(data, desk=desk, instance=gift, lines=edit_forms(desk, gift, data))
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(desk.gifts.select_related("partner"), pk=pk)
        edits = [line.edit() for line in form.lines if line.is_there or line.cleaned_data.get("row")]
        try:
            actions.edit_gift(desk=desk, gift=stored, seen=form.version_seen, lines=edits, **form.values())
        except PlainError as error:
            form.add_error(None, _(error.sentence) % error.facts)
        else:
            said(request, _("What came from %(giver)s is put right.") % {"giver": stored.giver})
            return redirect(stored)
    return render(request, "gifts/gift_edit.html", {"form": form, "gift": gift})


@require_GET
@readers(Opened.GIFTS)
def gift_list(request: DeskRequest) -> HttpResponse:
    chosen = GiftFilter(request.GET or None, desk=request.desk)
    rows = chosen.qs.select_related("partner", "school", "thanks").prefetch_related("lines")
    table = configured(request, GiftTable(rows, desk=request.desk))
    shown = {"table": table, "filter": chosen, "narrowed": narrowed(request, chosen)}
    return render(request, "gifts/gift_list.html", shown)


@require_GET
@readers(Opened.GIFTS)
def gift_export(request: DeskRequest) -> HttpResponseBase:
    """The list as it is narrowed, as a file."""
    return csv_response("gifts.csv", HEADER, gift_rows(GiftFilter(request.GET or None, desk=request.desk).qs))


@require_GET
@readers(Opened.GIFTS)
def family_list(request: DeskRequest) -> HttpResponse:
    """What families gave, as counts."""
    chosen = GiftFilter(request.GET or None, desk=request.desk)
    counted = family_gifts(request.desk, chosen.qs) + family_money(request.desk, chosen.qs)
    counted.sort(key=lambda one: one.school)
    table = configured(request, FamilyTable(counted, prefix="families"))
    shown = {"table": table, "filter": chosen, "thanked": thanked_by_school(request.desk)}
    return render(request, "gifts/family_list.html", shown)
