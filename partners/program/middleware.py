"""Puts the desk on every request, and answers what any form can run into: sent twice, changed meanwhile."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from partners.ground.changes import AlreadySaved, ChangedMeanwhile, MovedOn, refuse_twice
from partners.ground.forms import IDS
from partners.ground.reader import one_reader
from partners.program import devices
from partners.program.desk import Desk
from partners.program.kept import Kept, kept_form
from partners.program.models import Membership, Role, User
from partners.program.signing import signer_of
from partners.program.typed import beside, typed

LONGEST_TOKEN = 64
# It says whether the database answers, so nothing is asked of the database before.
BEFORE_ALL = "health"


def desk_for(request: HttpRequest) -> Desk | None:
    """The desk of who is signed in: the program they chose last, else the first they belong to."""
    found = Membership.objects.filter(user_id=int(request.user.pk or 0)).select_related("program")
    rows = list(found.order_by("program_id"))
    kept = kept_form(request.headers)
    if kept is not None:
        return desk_of_kept(request, kept, next((row for row in rows if row.program_id == kept.program_pk), None))
    if not rows:
        return None
    chosen = request.session.get("program")
    membership = next((row for row in rows if row.program_id == chosen), rows[0])
    request.other_books = [row.program for row in rows if row is not membership]  # type: ignore[attr-defined]
    return desk_of(membership, request.user, token_of(request))


def desk_of_kept(request: HttpRequest, kept: Kept, membership: Membership | None) -> Desk:
    """The desk at which a form was filled in: the same person, in the same program, on that day; nobody else's."""
    if membership is None or not kept.belongs_to(request.user):
        raise PermissionDenied
    desk = desk_of(membership, request.user, token_of(request))
    return replace(desk, day=kept.as_of(desk.day))


def desk_of(membership: Membership, user: Any, once: str | None = None) -> Desk:
    """The desk of one member, today where the program is; from here on times are shown as they are there."""
    program = membership.program
    timezone.activate(ZoneInfo(program.time_zone))
    return Desk(
        program=program,
        day=timezone.localdate(),
        user=user,
        role=Role(membership.role),
        opened=frozenset(membership.opened),
        school_ids=frozenset(membership.school_ids),
        once=once,
        signer=signer_of(membership),
    )


def token_of(request: HttpRequest) -> str | None:
    """The form's token, where it is one that could have been given out."""
    token = request.POST.get("once", "") if request.method == "POST" else ""
    return token if token and token.isprintable() and len(token) <= LONGEST_TOKEN else None


class DeskMiddleware:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        try:
            with one_reader():
                return self.get_response(request)
        finally:
            timezone.deactivate()

    def process_view(self, request: Any, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        if request.resolver_match.view_name == BEFORE_ALL:
            return None
        if kwargs.get("pk", 0) not in IDS:
            raise Http404
        request.desk = desk_for(request) if request.user.is_authenticated else None
        if request.user.is_authenticated:
            devices.used_on(request.session, timezone.localdate())
        if request.desk is not None:
            return self.saved_before(request)
        if request.user.is_authenticated:
            return redirect("program:no-program") if hasattr(view, "open_to") else None
        set_up = request.resolver_match.view_name == "school:set-up"
        return None if set_up or User.objects.exists() else redirect("school:set-up")

    def saved_before(self, request: Any) -> HttpResponse | None:
        """A form that is sent again is not read again: what it just wrote would be in its own way."""
        try:
            if request.desk.once:
                refuse_twice(request.desk)
        except AlreadySaved as error:
            return self.process_exception(request, error)
        return None

    def process_exception(self, request: Any, error: Exception) -> HttpResponse | None:
        if isinstance(error, AlreadySaved):
            messages.info(request, _("That was saved already, once."))
            about = error.event.about()
            return redirect(about) if hasattr(about, "get_absolute_url") else redirect("agenda:today")
        if isinstance(error, MovedOn) and request.method != "POST":
            match = request.resolver_match
            now: HttpResponse = redirect(match.view_name, **{**match.kwargs, "pk": error.stored.pk})
            return now
        if isinstance(error, MovedOn):
            error = ChangedMeanwhile(error.stored)
        if isinstance(error, ChangedMeanwhile):
            words = beside(request, error.stored) if error.stored is not None else {"typed": typed(request)}
            return render(request, "ground/changed_meanwhile.html", {"error": error, **words}, status=409)
        if isinstance(error, Http404) and request.method == "POST" and request.desk and (left := typed(request)):
            return render(request, "ground/changed_meanwhile.html", {"typed": left}, status=404)
        return None
