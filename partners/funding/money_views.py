"""The page of the money: where everything about it is, and its figures."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from partners.funding.money_figures import money_page
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened


@require_GET
@readers(Opened.MONEY)
def money(request: DeskRequest) -> HttpResponse:
    """`year` in the address is a school year ("2026-27") or a calendar year ("2026")."""
    return render(request, "funding/money.html", money_page(request.desk, request.GET.get("year", "")))
