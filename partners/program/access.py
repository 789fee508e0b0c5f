"""Who may open a view. Every view carries one of these marks; a test walks them all."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any
from urllib.parse import urlsplit

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.urls import resolve

from partners.program.desk import Desk

View = Callable[..., HttpResponseBase]


class DeskRequest(HttpRequest):
    """A request by somebody who is signed in and belongs to a program."""

    desk: Desk
    htmx: Any


def _marked(view: View, mark: str, allows: Callable[..., bool]) -> View:
    @wraps(view)
    def guarded(request: DeskRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        if not allows(request.desk, *args, **kwargs):
            raise PermissionDenied
        return view(request, *args, **kwargs)

    guarded.open_to = mark  # type: ignore[attr-defined]
    guarded.allows = allows  # type: ignore[attr-defined]
    return guarded


def leads(desk: Desk, address: str) -> bool:
    """Whether the page at an address of the site is open to the person: nobody is led to a page that says no."""
    if not address or desk.writes:
        return bool(address)
    match = resolve(urlsplit(address).path)
    allows = getattr(match.func, "allows", None)
    return allows is None or bool(allows(desk, **match.kwargs))


def keepers(view: View) -> View:
    """Members and settings: only who keeps the book."""
    return _marked(view, "keepers", lambda desk, **address: desk.keeps)


def teachers(view: View) -> View:
    """Everything that writes."""
    return _marked(view, "teachers", lambda desk, **address: desk.writes)


def readers(what: str) -> Callable[[View], View]:
    """Pages a keeper can open to guests; `what` is one of `Opened`."""
    return lambda view: _marked(view, f"readers:{what}", lambda desk, **address: desk.reads(what))


def readers_of(what: Callable[..., str]) -> Callable[[View], View]:
    """Pages of several kinds behind one address: `what` says from the address which of `Opened` this one needs."""
    return lambda view: _marked(view, "readers of each kind", lambda desk, **address: desk.reads(what(**address)))
