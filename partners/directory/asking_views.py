"""When a partner is not to be asked: resting, or never."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.directory import actions
from partners.directory.forms import RestForm
from partners.directory.moved import partner_at
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers


@require_http_methods(["GET", "POST"])
@teachers
def partner_rest(request: DeskRequest, pk: int) -> HttpResponse:
    partner = partner_at(request.desk, pk)
    form = RestForm(request.POST or None, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        stored = actions.rest(desk=request.desk, partner=partner, **form.cleaned_data)
        facts = {"partner": stored, "day": date_format(stored.rest_until or request.desk.day, "DATE_FORMAT")}
        said(request, _("%(partner)s rests until %(day)s.") % facts)
        return redirect(stored)
    return render(request, "directory/rest_form.html", {"form": form, "partner": partner})


@require_POST
@teachers
def rest_end(request: DeskRequest, pk: int) -> HttpResponse:
    partner = partner_at(request.desk, pk)
    actions.rest(desk=request.desk, partner=partner, until=None)
    said(request, _("The rest of %(partner)s has ended.") % {"partner": partner})
    return redirect(partner)


@require_POST
@teachers
def partner_never_ask(request: DeskRequest, pk: int) -> HttpResponse:
    """Never ask again; with `never=no` this is taken back."""
    partner = partner_at(request.desk, pk)
    never = request.POST.get("never") != "no"
    actions.never_ask(desk=request.desk, partner=partner, never=never)
    words = _("%(partner)s will not be asked again.") if never else _("%(partner)s may be asked again.")
    said(request, words % {"partner": partner})
    return redirect(partner)
