"""The people at a partner."""

from __future__ import annotations

from django.contrib import messages
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.directory import actions
from partners.directory.forms import ContactForm
from partners.directory.moved import partner_at
from partners.ground.changes import MovedOn
from partners.ground.put_together import row_at
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers

MOST_OTHERS = 12


@require_http_methods(["GET", "POST"])
@teachers
def contact_new(request: DeskRequest, pk: int) -> HttpResponse:
    partner = partner_at(request.desk, pk)
    form = ContactForm(request.POST or None, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        contact = actions.add_contact(desk=request.desk, partner=partner, **form.values())
        said(request, _("%(contact)s is written down.") % {"contact": contact})
        return redirect(partner)
    return render(request, "directory/contact_form.html", {"form": form, "partner": partner})


@require_http_methods(["GET", "POST"])
@teachers
def contact_edit(request: DeskRequest, pk: int) -> HttpResponse:
    try:
        contact = row_at(request.desk, request.desk.contacts.select_related("partner"), pk)
    except MovedOn as where:
        # Somebody written down twice stands with the partner, under whatever number.
        return redirect("directory:partner-detail", where.stored.pk)
    partner = contact.partner
    form = ContactForm(request.POST or None, desk=request.desk, instance=contact)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.contacts.select_related("partner"), pk=pk)
        actions.edit_contact(desk=request.desk, contact=stored, seen=form.version_seen, **form.values())
        said(request, _("%(contact)s is changed.") % {"contact": stored})
        return redirect(partner)
    others = request.desk.contacts.filter(partner=partner).exclude(pk=pk)[:MOST_OTHERS]
    shown = {"form": form, "partner": partner, "contact": contact, "others": others}
    return render(request, "directory/contact_form.html", shown)


@require_POST
@teachers
def contact_left(request: DeskRequest, pk: int) -> HttpResponse:
    contact = get_object_or_404(request.desk.contacts.select_related("partner"), pk=pk)
    actions.edit_contact(desk=request.desk, contact=contact, left_on=request.desk.day)
    facts = {"contact": contact, "partner": contact.partner}
    said(request, _("%(contact)s is no longer at %(partner)s.") % facts)
    return redirect(contact.partner)


@require_POST
@teachers
def contact_remove(request: DeskRequest, pk: int) -> HttpResponse:
    contact = get_object_or_404(request.desk.contacts.select_related("partner"), pk=pk)
    partner = contact.partner
    try:
        actions.remove_contact(desk=request.desk, contact=contact)
    except ProtectedError:
        messages.warning(request, _("Visits name this person. Write down the day they left instead."))
    else:
        said(request, _("%(contact)s is taken out.") % {"contact": contact.name})
    return redirect(partner)
