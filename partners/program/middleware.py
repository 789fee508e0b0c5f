"""Puts the desk on every request, and answers what any form can run into: sent twice, changed meanwhile."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from partners.ground.changes import AlreadySaved, ChangedMeanwhile, MovedOn, refuse_twice
from partners.ground.forms import LARGEST_ID
from partners.ground.frozen import frozen
from partners.ground.models import Row
from partners.ground.money import format_cents
from partners.program import devices
from partners.program.desk import Desk
from partners.program.kept import Kept, kept_form
from partners.program.models import Membership, Role, User

LONGEST_TOKEN = 64
# It says whether the database answers, so nothing is asked of the database before.
BEFORE_ALL = "health"
# Fields of a numbered line that hold what a person typed, and no number of a row.
LINE = re.compile(r"(?P<line>[a-z_]+-[0-9]+)-(what|quantity|cents|planned|shipping|question|words)")


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
            return self.get_response(request)
        finally:
            timezone.deactivate()

    def process_view(self, request: Any, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        if request.resolver_match.view_name == BEFORE_ALL:
            return None
        if kwargs.get("pk", 0) > LARGEST_ID:
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
            return render(request, "ground/changed_meanwhile.html", beside(request, error), status=409)
        return None


def beside(request: HttpRequest, error: ChangedMeanwhile) -> dict[str, Any]:
    """What was typed beside what is stored, by the names of the fields; only where the two differ."""
    stored: Any = error.stored
    if stored is None:
        return {"error": error, "rows": [], "stored": None}
    held = frozen(stored)
    fields = {f.attname: f for f in stored._meta.concrete_fields}
    desk: Desk = request.desk  # type: ignore[attr-defined]
    rows = [
        {
            "label": capfirst(str(fields[attname].verbose_name)),
            "typed": named(desk, fields[attname], request.POST[fields[attname].name]),
            "stored": named(desk, fields[attname], as_typed(attname, held[attname])),
        }
        for attname in held
        if fields[attname].name in request.POST
    ]
    rows = [
        row
        for row in rows
        if str(row["typed"]).strip() != ("" if row["stored"] is None else str(row["stored"]).strip())
    ]
    return {"error": error, "rows": rows, "stored": stored, "lines": typed_lines(request)}


def _as_text(value: Any) -> str:
    return "" if value is None else str(value).strip()


def named(desk: Desk, field: Any, value: Any) -> Any:
    """A row that is chosen by its name instead of its number, where the person may see it; a choice in its words."""
    if field.choices:
        return dict(field.flatchoices).get(value, value)
    if field.get_internal_type() == "BooleanField":
        return _("yes") if value in (True, "on", "True") else _("no")
    model = field.related_model
    if model is None or not issubclass(model, Row) or not re.fullmatch(r"[0-9]{1,18}", str(value)):
        return value
    row = desk.narrowed(model._base_manager.filter(program=desk.program)).filter(pk=int(value)).first()
    return value if row is None else str(row)


def as_typed(attname: str, value: Any) -> Any:
    return format_cents(value) if attname.endswith("_cents") and isinstance(value, int) else value


def typed_lines(request: HttpRequest) -> list[str]:
    """What was typed in the numbered lines of a form, a sentence for each line."""
    lines: dict[str, list[str]] = {}
    for name, typed in request.POST.items():
        found = LINE.fullmatch(name)
        if found and str(typed).strip():
            lines.setdefault(found["line"], []).append(str(typed))
    return [" · ".join(words) for words in lines.values()]
