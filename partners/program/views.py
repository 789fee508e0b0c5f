"""Choosing a program, and its members. Its settings are changed in the agenda room, with the days they count."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground import samples
from partners.ground.said import said
from partners.program import actions
from partners.program.access import DeskRequest, keepers
from partners.program.forms import InviteForm, MemberForm
from partners.program.models import Membership, Role


@require_GET
def no_program(request: HttpRequest) -> HttpResponse:
    return render(request, "program/no_program.html")


@require_POST
def program_choose(request: HttpRequest, pk: int) -> HttpResponse:
    """Move to another program one belongs to."""
    member = get_object_or_404(Membership, program_id=pk, user_id=request.user.pk)
    request.session["program"] = member.program_id
    return redirect("agenda:today")


@require_GET
@keepers
def member_list(request: DeskRequest) -> HttpResponse:
    return render(request, "program/member_list.html", {"members": request.desk.memberships.select_related("user")})


@require_http_methods(["GET", "POST"])
@keepers
def member_new(request: DeskRequest) -> HttpResponse:
    form = InviteForm(request.POST or None, desk=request.desk, initial={"role": Role.TEACHER})
    if request.method == "POST" and form.is_valid():
        member, password = actions.invite(desk=request.desk, **form.cleaned_data)
        said(
            request,
            _("%(name)s signs in as %(username)s with %(password)s. Hand it over now; it is not shown again.")
            % {"name": member.user, "username": member.user.username, "password": password},
        )
        return redirect("program:member-list")
    return render(request, "program/member_form.html", {"form": form})


@require_http_methods(["GET", "POST"])
@keepers
def member_edit(request: DeskRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(request.desk.memberships.select_related("user"), pk=pk)
    form = MemberForm(request.POST or None, instance=member, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        actions.edit_member(desk=request.desk, member=member, seen=form.version_seen, **form.values())
        said(request, _("Saved."))
        return redirect("program:member-list")
    return render(request, "program/member_form.html", {"form": form, "member": member})


@require_POST
@keepers
def member_remove(request: DeskRequest, pk: int) -> HttpResponse:
    member = get_object_or_404(request.desk.memberships.select_related("user"), pk=pk)
    if member.user_id == request.user.pk:
        messages.warning(request, _("You cannot take yourself out; another keeper can."))
    else:
        name = str(member.user)
        actions.remove_member(desk=request.desk, member=member)
        said(request, _("%(name)s may no longer use this book.") % {"name": name})
    return redirect("program:member-list")


@require_GET
@keepers
def components(request: DeskRequest) -> HttpResponse:
    """Every part the pages are made of, on one page."""
    return render(request, "ground/components.html", samples.components(request, request.desk.day))
