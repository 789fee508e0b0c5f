"""Inviting by link: making it, showing it once, withdrawing it; and what the person finds who opens it."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from axes.handlers.proxy import AxesProxyHandler
from django.contrib import messages
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.db import IntegrityError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.html import format_html
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.said import said
from partners.program import invitation_actions as actions
from partners.program.access import DeskRequest, keepers
from partners.program.desk import Desk
from partners.program.forms import InviteForm, JoinForm
from partners.program.models import Invitation, Membership, Opened, Role, User

KEPT, SHOWN = "invitation", "invitation_link"
# Wrong links are counted like wrong passwords, under a name that nobody can have.
GUESS = {"username": "(an invitation link)"}
BACKEND = "django.contrib.auth.backends.ModelBackend"


@require_http_methods(["GET", "POST"])
@keepers
def member_new(request: DeskRequest) -> HttpResponse:
    form = InviteForm(request.POST or None, desk=request.desk, initial={"role": Role.TEACHER})
    if request.method == "POST" and form.is_valid():
        invitation, secret = actions.invite(desk=request.desk, **form.cleaned_data)
        # Held for the one page that shows it, and taken out there.
        link = request.build_absolute_uri(reverse("program:join-link", args=[secret]))
        request.session[SHOWN] = [invitation.pk, link]
        said(request, _("%(name)s is invited.") % {"name": invitation.name})
        return redirect("program:member-link")
    return render(request, "program/member_form.html", {"form": form})


@require_GET
@never_cache
@keepers
def member_link(request: DeskRequest) -> HttpResponse:
    """The link just made, this once; as text to copy and as a mail to send."""
    pk, link = request.session.pop(SHOWN, (0, ""))
    invitation = request.desk.invitations.filter(pk=pk).first()
    if invitation is None:
        return redirect("program:member-list")
    subject = _("%(program)s: you are invited") % {"program": request.desk.program.name}
    facts = {"name": invitation.name, "link": link, "program": request.desk.program.name, "from": request.user}
    may = _(" You can look around freely: a guest changes nothing.") if invitation.role == Role.GUEST else ""
    text = _(
        "Hello %(name)s,\n\nthis link opens our partner book, %(program)s, for you; there you choose a name and a "
        "password of your own.%(may)s The link works once and for two weeks; please do not pass it on."
        "\n\n%(link)s\n\n%(from)s"
    ) % {**facts, "may": may}
    mail = f"mailto:?subject={quote(subject)}&body={quote(text.replace(chr(10), chr(13) + chr(10)))}"
    return render(request, "program/member_link.html", {"invitation": invitation, "text": text, "mail": mail})


@require_POST
@keepers
def invitation_withdraw(request: DeskRequest, pk: int) -> HttpResponse:
    invitation = get_object_or_404(request.desk.invitations.filter(used_by=None), pk=pk)
    actions.withdraw(desk=request.desk, invitation=invitation)
    said(request, _("The invitation of %(name)s is withdrawn; its link opens nothing.") % {"name": invitation.name})
    return redirect("program:member-list")


@require_GET
@never_cache
@login_not_required
def join_link(request: HttpRequest, secret: str) -> HttpResponse:
    """Opening the link uses nothing up. The secret leaves the address at once, so that no page hands it on."""
    if not AxesProxyHandler.is_allowed(request, GUESS):
        return render(request, "program/locked_out.html", status=429)
    invitation = actions.found(actions.hash_of(secret))
    if invitation is None:
        AxesProxyHandler.user_login_failed("partners.program", GUESS, request)
        return over(request)
    request.session[KEPT] = invitation.secret_hash
    return redirect("program:join")


@require_http_methods(["GET", "POST"])
@never_cache
@login_not_required
def join(request: HttpRequest) -> HttpResponse:
    """Somebody signed in joins with a press; everybody else chooses a name and a password of their own."""
    invitation = actions.found(str(request.session.get(KEPT, "")))
    if invitation is None:
        return over(request)
    if request.user.is_authenticated:
        return join_known(request, invitation, request.user)
    form = JoinForm(request.POST or None, invited=invitation.name)
    if request.method == "POST" and form.is_valid():
        try:
            user = form.save(commit=False)
            actions.join(desk=desk_to_join(invitation, user), invitation=invitation, user=user)
        except actions.LinkIsOver:
            return over(request)
        except IntegrityError:
            form.add_error("username", _("Somebody else has just taken this name. Choose another."))
        else:
            login(request, user, backend=BACKEND)
            return inside(request, invitation)
    return render(request, "program/join.html", {"form": form, **told(invitation)})


def join_known(request: HttpRequest, invitation: Invitation, user: Any) -> HttpResponse:
    """Who belongs to the book already stays as they are, and the link stays unused."""
    member = Membership.objects.filter(program=invitation.program, user=user).exists()
    if request.method == "POST":
        try:
            if not member:
                actions.join(desk=desk_to_join(invitation, user), invitation=invitation, user=user)
        except actions.LinkIsOver:
            return over(request)
        return inside(request, invitation)
    return render(request, "program/join.html", {"member": member, **told(invitation)})


def inside(request: HttpRequest, invitation: Invitation) -> HttpResponse:
    request.session.pop(KEPT, None)
    request.session["program"] = invitation.program_id
    words = _("Welcome to %(program)s.") % {"program": invitation.program}
    if invitation.role == Role.KEEPER:
        words += " " + _("Do you take it over? What stands open is under Year, Hand over.")
    if invitation.role == Role.TEACHER:
        link = _("how you sign, and your school phone and e-mail")
        own = format_html('<a href="{}">{}</a>', reverse("program:own-name"), link)
        words = format_html(
            "{} {}", words, format_html(_("Before you print your first sheet, look at {own}."), own=own)
        )
    messages.success(request, words)
    return redirect("agenda:today")


def over(request: HttpRequest) -> HttpResponse:
    """The same answer for a link that was used, withdrawn, has ended, or never was."""
    request.session.pop(KEPT, None)
    return render(request, "program/join_over.html", status=404)


def told(invitation: Invitation) -> dict[str, Any]:
    schools = desk_to_join(invitation, None).schools.filter(pk__in=invitation.school_ids)
    opened = [Opened(one).label for one in invitation.opened if one in Opened] if invitation.role == Role.GUEST else []
    return {"invitation": invitation, "program": invitation.program, "schools": list(schools), "opened": opened}


def desk_to_join(invitation: Invitation, user: User | None) -> Desk:
    """The desk of somebody who is about to belong to the program: it only signs what they do."""
    return Desk(program=invitation.program, day=actions.day_of(invitation), user=user, role=Role.GUEST)
