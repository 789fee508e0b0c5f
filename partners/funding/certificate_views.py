"""Exemption certificates: which school has which, until when, and renewing one."""

from __future__ import annotations

import re
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.funding import certificate_actions as actions
from partners.funding.buying_forms import CertificateForm
from partners.funding.buying_models import Certificate
from partners.funding.buying_words import CAUTION
from partners.funding.state_rules import state_code
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.program.files import attachments_of

FROM_BEFORE = ("school", "state", "number", "holder", "paper_held")


@require_GET
@teachers
def certificate_list(request: DeskRequest) -> HttpResponse:
    rows = request.desk.certificates.select_related("school")
    return render(request, "funding/certificate_list.html", {"certificates": rows, "caution": CAUTION})


@require_http_methods(["GET", "POST"])
@teachers
def certificate_new(request: DeskRequest) -> HttpResponse:
    """A new certificate; with ?follows= the one that renews another, and ?school= for that school."""
    desk = request.desk
    before = named(request, "follows", desk.certificates)
    form = CertificateForm(
        request.POST or None, desk=desk, instance=Certificate(), initial=first_values(request, before)
    )
    if request.method == "POST" and form.is_valid():
        actions.add_certificate(desk=desk, follows=before, **form.values())
        said(request, _("The certificate is written down."))
        return redirect("funding:certificate-list")
    return render(request, "funding/certificate_form.html", {"form": form, "before": before, "caution": CAUTION})


def first_values(request: DeskRequest, before: Certificate | None) -> dict[str, Any]:
    """What the one before says, but its days; else what the school says."""
    if before is not None:
        return {name: getattr(before, name) for name in FROM_BEFORE}
    school = named(request, "school", request.desk.schools) or request.desk.schools.first()
    if school is None:
        return {}
    return {"school": school, "state": state_code(school.state), "holder": school.legal_name}


def named(request: DeskRequest, name: str, rows: Any) -> Any:
    """The row whose number the address names; None where it names none of these."""
    asked = request.GET.get(name, "")
    return rows.filter(pk=asked).first() if re.fullmatch(r"[0-9]{1,18}", asked) else None


@require_http_methods(["GET", "POST"])
@teachers
def certificate_edit(request: DeskRequest, pk: int) -> HttpResponse:
    certificate = get_object_or_404(request.desk.certificates, pk=pk)
    own = get_object_or_404(request.desk.certificates, pk=pk)
    form = CertificateForm(request.POST or None, desk=request.desk, instance=own)
    if request.method == "POST" and form.is_valid():
        actions.edit_certificate(desk=request.desk, certificate=certificate, seen=form.version_seen, **form.values())
        said(request, _("The certificate is changed."))
        return redirect("funding:certificate-list")
    shown = {
        "form": form,
        "certificate": certificate,
        "caution": CAUTION,
        "attachments": attachments_of(request.desk, certificate=certificate),
    }
    return render(request, "funding/certificate_form.html", shown)


@require_POST
@teachers
def certificate_end(request: DeskRequest, pk: int) -> HttpResponse:
    """It is not needed again."""
    certificate = get_object_or_404(request.desk.certificates, pk=pk)
    if certificate.renewed:
        messages.info(request, _("That is settled already."))
    else:
        actions.end_certificate(desk=request.desk, certificate=certificate)
        said(request, _("Nothing reminds you of its end any more."))
    return redirect("funding:certificate-list")
