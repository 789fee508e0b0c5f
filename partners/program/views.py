"""Choosing a program, and its members. Its settings are changed in the agenda room, with the days they count."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST
from django.views.defaults import permission_denied

from partners.ground import samples
from partners.ground.said import said
from partners.program import actions
from partners.program.access import DeskRequest, keepers, teachers
from partners.program.bar import bar
from partners.program.forms import MemberForm, SignsForm
from partners.program.letter_picture_views import own_place
from partners.program.models import Membership


def not_open(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Who comes in where Today is not open to them is led to the first page that is; elsewhere the page says no."""
    if request.method == "GET" and request.path == reverse("agenda:today"):
        for place in bar(request)["bar"]:
            return redirect(place["url"])
    return permission_denied(request, exception)


@require_GET
def no_program(request: HttpRequest) -> HttpResponse:
    return render(request, "program/no_program.html", {"no_book": True})


@require_POST
def program_choose(request: HttpRequest, pk: int) -> HttpResponse:
    """Move to another program one belongs to."""
    member = get_object_or_404(Membership, program_id=pk, user_id=request.user.pk)
    request.session["program"] = member.program_id
    return redirect("agenda:today")


@require_GET
@keepers
def member_list(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    names = dict(desk.schools.values_list("pk", "name"))
    members = [
        {"row": row, "schools": [names[pk] for pk in row.school_ids if pk in names]}
        for row in desk.memberships.select_related("user").order_by("pk")
    ]
    invitations = desk.invitations.filter(used_by=None).order_by("-pk")[:50]
    return render(request, "program/member_list.html", {"members": members, "invitations": invitations})


@require_http_methods(["GET", "POST"])
@keepers
def member_edit(request: DeskRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(request.desk.memberships.select_related("user"), pk=pk)
    form = MemberForm(request.POST or None, instance=member, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.memberships.select_related("user"), pk=pk)
        try:
            actions.edit_member(desk=request.desk, member=stored, seen=form.version_seen, **form.values())
        except actions.NoKeeper as error:
            form.add_error("role", gettext(error.sentence))
        else:
            said(request, _("Saved."))
            return redirect("program:member-list")
    return render(request, "program/member_form.html", {"form": form, "member": member})


@require_http_methods(["GET", "POST"])
@teachers
def own_name(request: DeskRequest) -> HttpResponse:
    """How one stands under what one prints oneself."""
    own = request.desk.memberships.select_related("user").filter(user_id=request.user.pk)
    form = SignsForm(request.POST or None, instance=get_object_or_404(own), desk=request.desk)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(own)
        actions.sign_letters(desk=request.desk, member=stored, seen=form.version_seen, **form.values())
        said(request, _("Saved."))
        return redirect("program:own-name")
    return render(request, "program/own_name.html", {"form": form, "place": own_place(request.desk)})


@require_POST
@keepers
def member_remove(request: DeskRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(request.desk.memberships.select_related("user"), pk=pk)
    if member.user_id == request.user.pk:
        messages.warning(request, _("You cannot take yourself out; another keeper can."))
    else:
        name = str(member.user)
        try:
            actions.remove_member(desk=request.desk, member=member)
        except actions.NoKeeper as error:
            messages.warning(request, gettext(error.sentence))
        else:
            said(request, _("%(name)s may no longer use this book.") % {"name": name})
    return redirect("program:member-list")


@require_GET
@keepers
def components(request: DeskRequest) -> HttpResponse:
    """Every part the pages are made of, on one page."""
    return render(request, "ground/components.html", samples.components(request, request.desk.day))
