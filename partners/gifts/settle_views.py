"""The buttons of a gift: thanked, accepted, handed in, returned."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from partners.gifts import actions
from partners.gifts.forms import HandInForm, LookForm
from partners.gifts.gift_page import context
from partners.gifts.models import Gift
from partners.gifts.risk_words import ticks_for
from partners.gifts.thanks_actions import thanks_said
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers


@require_POST
@teachers
def gift_thanked(request: DeskRequest, pk: int) -> HttpResponse:
    """It was said in person."""
    thanks = get_object_or_404(request.desk.thanks.select_related("gift", "partner"), gift=pk)
    if thanks.done_on is not None:
        return already(request, thanks.gift)
    thanks_said(desk=request.desk, thanks=thanks, day=request.desk.day, how=_("in person"))
    said(request, _("Thanked %(partner)s in person.") % {"partner": thanks.partner})
    return redirect(thanks.gift)


@require_POST
@teachers
def gift_accepted(request: DeskRequest, pk: int) -> HttpResponse:
    gift = settled_by(request, pk, accept_due__isnull=False)
    if gift.accepted_on is not None:
        return already(request, gift)
    actions.accept(desk=request.desk, gift=gift, day=request.desk.day)
    said(request, _("%(who)s accepted it.") % {"who": gift.accept_by_whom or gift.giver})
    return redirect(gift)


@require_POST
@teachers
def gift_looked_at(request: DeskRequest, pk: int) -> HttpResponse:
    """Ticked is what is so; the rest still waits."""
    gift = settled_by(request, pk)
    form = LookForm(request.POST, wanted=ticks_for(line.risk for line in gift.lines.all()))
    form.is_valid()
    actions.looked_at(desk=request.desk, gift=gift, **form.cleaned_data)
    ready = all(form.cleaned_data.values())
    said(request, _("Looked at: children may use it.") if ready else _("Kept. What is not ticked still waits."))
    return redirect(gift)


@require_POST
@teachers
def gift_returned(request: DeskRequest, pk: int) -> HttpResponse:
    gift = settled_by(request, pk, form="loan")
    if gift.returned_on is not None:
        return already(request, gift)
    actions.return_loan(desk=request.desk, gift=gift, day=request.desk.day)
    said(request, _("Returned to %(giver)s.") % {"giver": gift.giver})
    return redirect(gift)


@require_POST
@teachers
def gift_handed_in(request: DeskRequest, pk: int) -> HttpResponse:
    """The money is in the office; its receipt number can come later."""
    gift = settled_by(request, pk, form="money")
    form = HandInForm(request.POST)
    if not form.is_valid():
        return render(request, "gifts/gift_detail.html", context(request.desk, gift) | {"hand_in": form, "form": form})
    number = form.cleaned_data["receipt_number"]
    if gift.handed_in_on is not None and not number:
        return already(request, gift)
    day = gift.handed_in_on or request.desk.day
    actions.hand_in(desk=request.desk, gift=gift, day=day, receipt_number=number)
    said(request, _("Handed in at the office."))
    return redirect(gift)


def settled_by(request: DeskRequest, pk: int, **kind: Any) -> Gift:
    gift: Gift = get_object_or_404(request.desk.gifts.select_related("partner", "school"), pk=pk, **kind)
    return gift


def already(request: DeskRequest, gift: Gift) -> HttpResponse:
    messages.info(request, _("That is settled already."))
    return redirect(gift)
