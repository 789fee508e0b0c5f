"""Who may open a view. Every view carries one of these marks; a test walks them all."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.http.response import HttpResponseBase

from partners.program.desk import Desk

View = Callable[..., HttpResponseBase]


class DeskRequest(HttpRequest):
    """A request by somebody who is signed in and belongs to a program."""

    desk: Desk
    htmx: Any


def _marked(view: View, mark: str, allows: Callable[[Desk], bool]) -> View:
    @wraps(view)
    def guarded(request: DeskRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        if not allows(request.desk):
            raise PermissionDenied
        return view(request, *args, **kwargs)

    guarded.open_to = mark  # type: ignore[attr-defined]
    return guarded


def keepers(view: View) -> View:
    """Members and settings: only who keeps the book."""
    return _marked(view, "keepers", lambda desk: desk.keeps)


def teachers(view: View) -> View:
    """Everything that writes."""
    return _marked(view, "teachers", lambda desk: desk.writes)


def readers(what: str) -> Callable[[View], View]:
    """Pages a keeper can open to guests; `what` is one of `Opened`."""
    return lambda view: _marked(view, f"readers:{what}", lambda desk: desk.reads(what))
