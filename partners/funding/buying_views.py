"""Buying: the list, the slip, the page of a purchase, its receipt."""

from __future__ import annotations

import re
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.funding import buying_actions as actions
from partners.funding.buying_forms import SlipForm
from partners.funding.buying_models import Purchase
from partners.funding.buying_page import context
from partners.funding.buying_tables import PurchaseTable
from partners.funding.money_filter import asked_for
from partners.funding.receipt_forms import ReceiptForm, as_typed, item_forms
from partners.funding.state_rules import state_code
from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

BESIDE = ("school", "partner", "project", "grant", "certificate__school")


def purchase_of(request: DeskRequest, pk: int) -> Purchase:
    found: Purchase = get_object_or_404(request.desk.purchases.select_related(*BESIDE), pk=pk)
    return found


@require_GET
@readers(Opened.MONEY)
def purchase_list(request: DeskRequest) -> HttpResponse:
    """All, or those behind a figure of the page of the money (`money_filter`)."""
    asked = asked_for(request.desk, request.GET)
    rows = asked.rows.select_related("school")
    table = configured(request, PurchaseTable(rows, own_money=request.desk.writes))
    return render(request, "funding/purchase_list.html", {"table": table, "asked": asked.words})


@require_GET
@readers(Opened.MONEY)
def purchase_detail(request: DeskRequest, pk: int) -> HttpResponse:
    return render(request, "funding/purchase_detail.html", context(request.desk, purchase_of(request, pk)))


@require_http_methods(["GET", "POST"])
@teachers
def purchase_new(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    form = SlipForm(request.POST or None, desk=desk, instance=Purchase(), initial=prefilled(request))
    if request.method == "POST" and form.is_valid():
        purchase = actions.write_slip(desk=desk, **form.slip())
        said(request, _("The slip for %(shop)s is written.") % {"shop": purchase.vendor})
        return redirect("funding:purchase-receipt", purchase.pk) if "bought" in request.POST else redirect(purchase)
    return render(request, "funding/purchase_form.html", {"form": form})


def prefilled(request: DeskRequest) -> dict[str, Any]:
    """What an address names: ?partner=, ?grant=, ?project=, ?need= of the desk, ?what= in words, ?about= in dollars."""
    desk = request.desk
    found: dict[str, Any] = {}
    kinds = {"partner": desk.partners, "grant": desk.grants, "project": desk.projects, "need": desk.needs}
    for name, rows in kinds.items():
        asked = request.GET.get(name, "")
        row = rows.filter(pk=asked).first() if re.fullmatch(r"[0-9]{1,18}", asked) else None
        if row is not None:
            found[name] = row
    if "partner" in found:
        found["shop"] = found.pop("partner")
    if need := found.pop("need", None):
        found |= {"what": need.what, "school": need.school, "project": need.project}
    if what := request.GET.get("what", "").strip():
        found["what"] = Truncator(what).chars(Purchase._meta.get_field("what").max_length or 0)
    if re.fullmatch(r"[0-9]{1,9}\.[0-9]{2}", about := request.GET.get("about", "")):
        found["estimate_cents"] = int(about.replace(".", ""))
    if (grant := found.get("grant")) is not None:
        found = {"school": grant.school, "project": grant.project, **found}
    return found


@require_http_methods(["GET", "POST"])
@teachers
def purchase_edit(request: DeskRequest, pk: int) -> HttpResponse:
    desk, purchase = request.desk, purchase_of(request, pk)
    form = SlipForm(request.POST or None, desk=desk, instance=purchase_of(request, pk))
    if request.method == "POST" and form.is_valid():
        actions.edit_slip(desk=desk, purchase=purchase, seen=form.version_seen, **form.slip())
        said(request, _("The slip is changed."))
        return redirect(purchase)
    return render(request, "funding/purchase_form.html", {"form": form, "purchase": purchase})


@require_http_methods(["GET", "POST"])
@teachers
def purchase_receipt(request: DeskRequest, pk: int) -> HttpResponse:
    """What was bought, line by line; or putting it right."""
    desk, purchase = request.desk, purchase_of(request, pk)
    data = request.POST or None
    own, items = as_typed(list(purchase.lines.all()))
    form = ReceiptForm(
        data,
        desk=desk,
        instance=purchase_of(request, pk),
        initial=own if purchase.bought_on else first_values(purchase, request),
        items=item_forms(desk, data, items),
    )
    if request.method == "POST" and form.is_valid():
        actions.record_receipt(
            desk=desk, purchase=purchase, seen=form.version_seen, lines=form.bought(), **form.receipt()
        )
        said(request, _("The receipt of %(shop)s is written down.") % {"shop": purchase.vendor})
        return redirect(purchase)
    return render(request, "funding/purchase_receipt.html", {"form": form, "purchase": purchase})


def first_values(purchase: Purchase, request: DeskRequest) -> dict[str, Any]:
    """Bought today, at the rate of the school, as long as it is bought in the school's own state."""
    found: dict[str, Any] = {"bought_on": request.desk.day}
    school = purchase.school
    if school is not None and state_code(school.state) == purchase.state:
        found |= {"tax_rate": school.tax_rate, "tax_per_item": school.tax_per_item}
    return found
