"""Partners: the list, the new one, the changed one; a partner's own page is the story room's."""

from __future__ import annotations

import re
from typing import Any

from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.directory import actions
from partners.directory.filters import LETTERS, PartnerFilter
from partners.directory.forms import PartnerForm, PartnerNewForm
from partners.directory.models import Partner
from partners.directory.moved import partner_at
from partners.directory.out import HEADER, PRIVATE, partner_rows
from partners.directory.partner_field import PICKED, suggested, suggestions
from partners.directory.same_partner import LikelyPartner, likely_partners
from partners.directory.tables import PartnerTable
from partners.ground.csv_out import csv_response
from partners.ground.narrowed import narrowed
from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

FIELD = re.compile(r"[A-Za-z0-9_-]{1,60}")


@require_GET
@readers(Opened.PARTNERS)
def partner_list(request: DeskRequest) -> HttpResponse:
    chosen = PartnerFilter(request.GET or None, desk=request.desk)
    to = narrowed(request, chosen, but=("q", "begins"))
    looked_for = {"searched": "q" in to.given, "resting": "asking" in to.given}
    table = configured(request, PartnerTable(chosen.qs.with_people(), desk=request.desk, **looked_for))
    context = {"table": table, "filter": chosen, "narrowed": to}
    if "begins" in to.given or table.page.has_other_pages():
        context["letters"] = LETTERS
    return render(request, "directory/partner_list.html", context)


@require_GET
@readers(Opened.PARTNERS)
def partner_export(request: DeskRequest) -> HttpResponseBase:
    """The list as it is narrowed, as a file; with the notes only for who writes."""
    desk = request.desk
    rows = partner_rows(PartnerFilter(request.GET or None, desk=desk).qs, private=desk.writes)
    return csv_response("partners.csv", [*HEADER, *PRIVATE] if desk.writes else HEADER, rows)


@require_http_methods(["GET", "POST"])
@teachers
def partner_new(request: DeskRequest) -> HttpResponse:
    form = PartnerNewForm(request.POST or None, desk=request.desk, initial={"name": request.GET.get("name", "")})
    likely: list[LikelyPartner] = []
    if request.method == "POST" and form.is_valid():
        likely = [] if "new_one" in request.POST else likely_partners(request.desk, **compared(form.cleaned_data))
        if not likely:
            partner = actions.add_partner(desk=request.desk, person=form.cleaned_data["person"], **form.values())
            words = {"partner": partner, "kind": partner.get_kind_display()}
            said(request, _("%(partner)s is in the book (%(kind)s).") % words)
            return redirect(partner)
    return render(request, "directory/partner_new.html", {"form": form, "likely": likely})


def compared(values: dict[str, Any]) -> dict[str, str]:
    return {name: values[name] for name in actions.KEYED}


@require_http_methods(["GET", "POST"])
@teachers
def partner_edit(request: DeskRequest, pk: int) -> HttpResponse:
    partner = partner_at(request.desk, pk)
    form = PartnerForm(request.POST or None, desk=request.desk, instance=partner)
    if request.method == "POST" and form.is_valid():
        stored = partner_at(request.desk, pk)
        actions.edit_partner(desk=request.desk, partner=stored, seen=form.version_seen, **form.values())
        said(request, _("%(partner)s is changed.") % {"partner": stored})
        return redirect(stored)
    return render(request, "directory/partner_form.html", {"form": form, "partner": stored_name(request, partner)})


def stored_name(request: DeskRequest, partner: Partner) -> Partner:
    """The partner as it is stored, where a form that failed has written what was typed on the row."""
    stored: Partner = request.desk.partners.get(pk=partner.pk) if request.method == "POST" else partner
    return stored


@require_GET
@readers(Opened.PARTNERS)
def partner_suggest(request: DeskRequest) -> HttpResponse:
    """What a typed name could be, for the field named `field`; the name comes as `q` or under the field's own name."""
    field = request.GET.get("field", "partner")
    if not FIELD.fullmatch(field):
        field = "partner"
    typed = request.GET.get("q", request.GET.get(field, ""))
    found = suggested(suggestions(request.desk, typed))
    otherwise = _("No partner of this name yet.") if typed.strip() and not found else ""
    context = {"name": field + PICKED, "found": found, "otherwise": otherwise}
    return HttpResponse(render_to_string("_suggest_found.html", context))
