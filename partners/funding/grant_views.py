"""Grants: the list, the page of one, writing it down and putting it right."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.funding import grant_actions as actions
from partners.funding.grant_forms import GrantForm
from partners.funding.grant_models import Grant
from partners.funding.grant_page import context, lines_fixed
from partners.funding.grant_tables import GrantTable
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

WITH = ("partner", "school", "project")
CHOICES = (
    ("", gettext_lazy("All")),
    ("open", gettext_lazy("Going on")),
    ("money", gettext_lazy("With money left")),
    ("ended", gettext_lazy("Refused or reported")),
)
SHOWN = {
    "open": lambda rows: rows.going_on(),
    "money": lambda rows: rows.with_money_left(),
    "ended": lambda rows: rows.exclude(pk__in=rows.going_on().values("pk")),
}


def found(request: DeskRequest, pk: int, **narrowed: Any) -> Grant:
    """The grant of that number on the desk, as it is stored. Http404 else."""
    grant: Grant = get_object_or_404(request.desk.grants.select_related(*WITH), pk=pk, **narrowed)
    return grant


@require_GET
@readers(Opened.MONEY)
def grant_list(request: DeskRequest) -> HttpResponse:
    shown = request.GET.get("shown", "")
    shown = shown if shown in SHOWN else ""
    rows = request.desk.grants.select_related("partner")
    table = configured(request, GrantTable(SHOWN[shown](rows) if shown else rows, day=request.desk.day))
    return render(request, "funding/grant_list.html", {"table": table, "shown": shown, "choices": CHOICES})


@require_GET
@readers(Opened.MONEY)
def grant_detail(request: DeskRequest, pk: int) -> HttpResponse:
    return render(request, "funding/grant_detail.html", context(request.desk, found(request, pk)))


@require_http_methods(["GET", "POST"])
@teachers
def grant_new(request: DeskRequest) -> HttpResponse:
    initial = {"partner": request.GET.get("partner", "")}
    form = GrantForm(request.POST or None, desk=request.desk, instance=Grant(), initial=initial)
    if request.method == "POST" and form.is_valid():
        assert form.lines is not None  # noqa: S101 -- a new grant has its lines open
        grant = actions.write_grant(desk=request.desk, lines=form.lines.edits(), **written(form))
        said(request, _("Grant of %(partner)s written down.") % {"partner": grant.partner})
        return redirect(grant)
    return render(request, "funding/grant_form.html", {"form": form})


@require_http_methods(["GET", "POST"])
@teachers
def grant_edit(request: DeskRequest, pk: int) -> HttpResponse:
    grant = found(request, pk)
    fixed = lines_fixed(grant)
    form = GrantForm(request.POST or None, desk=request.desk, instance=grant, lines_fixed=fixed)
    if request.method == "POST" and form.is_valid():
        lines = form.lines.edits() if form.lines is not None else None
        stored = found(request, pk)
        actions.edit_grant(desk=request.desk, grant=stored, lines=lines, seen=form.version_seen, **written(form))
        said(request, _("The grant is put right."))
        return redirect(stored)
    shown = {"form": form, "grant": found(request, pk), "fixed": fixed}
    return render(request, "funding/grant_form.html", shown)


def written(form: GrantForm) -> dict[str, Any]:
    """The form's values; a new grantmaker comes as a name."""
    values = form.values()
    if "partner" in form.cleaned_data:
        values["partner"] = form.cleaned_data["partner"]
    return values


@require_POST
@teachers
def grant_remove(request: DeskRequest, pk: int) -> HttpResponse:
    grant = found(request, pk)
    try:
        actions.drop_grant(desk=request.desk, grant=grant)
    except PlainError as error:
        messages.warning(request, _(error.sentence) % error.facts)
        return redirect(grant)
    except ProtectedError:
        messages.warning(request, _("Purchases, papers or letters belong to it, so it stays in the book."))
        return redirect(grant)
    said(request, _("Taken out."))
    return redirect("funding:grant-list")
