"""The buttons of a purchase: handed in, repaid, not asked back, tax back, called off."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from partners.funding import buying_actions as actions
from partners.funding.buying_models import Payer, Purchase
from partners.funding.buying_page import context, hand_in_form, repay_form, tax_back_form
from partners.funding.buying_views import purchase_of
from partners.ground.money import format_cents
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers


def already(request: DeskRequest, purchase: Purchase) -> HttpResponse:
    messages.info(request, _("That is settled already."))
    return redirect(purchase)


def refused(request: DeskRequest, purchase: Purchase, **form: object) -> HttpResponse:
    return render(request, "funding/purchase_detail.html", context(request.desk, purchase, **form))


@require_POST
@teachers
def purchase_handed_in(request: DeskRequest, pk: int) -> HttpResponse:
    """The receipt is in the office."""
    purchase = purchase_of(request, pk)
    if purchase.handed_in_on is not None or purchase.bought_on is None:
        return already(request, purchase)
    form = hand_in_form(request.desk, purchase, request.POST)
    if not form.is_valid():
        return refused(request, purchase, hand_in=form)
    actions.hand_in(desk=request.desk, purchase=purchase, day=form.cleaned_data["day"])
    said(request, _("The receipt is handed in."))
    return redirect(purchase)


@require_POST
@teachers
def purchase_repaid(request: DeskRequest, pk: int) -> HttpResponse:
    """The teacher has the money back."""
    purchase = purchase_of(request, pk)
    if purchase.repaid_on is not None or purchase.bought_on is None or purchase.payer != Payer.OWN:
        return already(request, purchase)
    form = repay_form(request.desk, purchase, request.POST)
    if not form.is_valid():
        return refused(request, purchase, repay=form)
    actions.repay(desk=request.desk, purchase=purchase, **form.cleaned_data)
    said(request, _("%(amount)s repaid.") % {"amount": format_cents(form.cleaned_data["cents"])})
    return redirect(purchase)


@require_POST
@teachers
def purchase_not_asked(request: DeskRequest, pk: int) -> HttpResponse:
    """The teacher lets it go."""
    purchase = purchase_of(request, pk)
    if purchase.not_claimed or purchase.repaid_on is not None or purchase.payer != Payer.OWN:
        return already(request, purchase)
    actions.not_ask_back(desk=request.desk, purchase=purchase)
    said(request, _("Not asked back; it stays out of your own pocket."))
    return redirect(purchase)


@require_POST
@teachers
def purchase_tax_back(request: DeskRequest, pk: int) -> HttpResponse:
    """The shop gave the tax back."""
    purchase = purchase_of(request, pk)
    if purchase.tax_back_on is not None or not purchase.tax_cents:
        return already(request, purchase)
    form = tax_back_form(request.desk, purchase, request.POST)
    if not form.is_valid():
        return refused(request, purchase, tax_back=form)
    actions.tax_came_back(desk=request.desk, purchase=purchase, **form.cleaned_data)
    said(request, _("%(amount)s of tax came back.") % {"amount": format_cents(form.cleaned_data["cents"])})
    return redirect(purchase)


@require_POST
@teachers
def purchase_tax_let_go(request: DeskRequest, pk: int) -> HttpResponse:
    purchase = purchase_of(request, pk)
    if purchase.tax_back_due is None or purchase.tax_let_go or purchase.tax_back_on is not None:
        return already(request, purchase)
    actions.let_tax_go(desk=request.desk, purchase=purchase)
    said(request, _("The tax is let go."))
    return redirect(purchase)


@require_POST
@teachers
def purchase_call_off(request: DeskRequest, pk: int) -> HttpResponse:
    """It is not bought after all."""
    purchase = purchase_of(request, pk)
    if purchase.called_off_on is not None or purchase.bought_on is not None:
        return already(request, purchase)
    actions.call_off(desk=request.desk, purchase=purchase, day=request.desk.day)
    said(request, _("Not bought after all: %(what)s.") % {"what": purchase.what})
    return redirect(purchase)
