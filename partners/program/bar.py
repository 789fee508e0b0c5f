"""The bar at the top of every page: only what exists and is open to the person."""

from __future__ import annotations

import uuid
from contextlib import suppress
from functools import cache
from typing import Any
from urllib.parse import urlsplit

from django.core.exceptions import ObjectDoesNotExist
from django.http import HttpRequest
from django.urls import NoReverseMatch, ResolverMatch, resolve, reverse
from django.utils.translation import gettext_lazy as _

from partners.program.desk import row_names
from partners.program.models import Opened

PLACES = [
    ("agenda:today", _("Today"), Opened.TODAY),
    ("directory:partner-list", _("Partners"), Opened.PARTNERS),
    ("wish_list:need-list", _("Wish list"), Opened.WISH_LIST),
    ("exchanges:trade-list", _("Trades"), Opened.TRADES),
    ("helpers:helper-list", _("Helpers"), Opened.HELPERS),
    ("funding:money", _("Money"), Opened.MONEY),
    ("letters:letter-list", _("Letters and sheets"), Opened.LETTERS),
    ("year:year", _("Year"), Opened.YEAR),
]
# Who writes comes to these from other pages; to a guest they may be the only ones.
FOR_GUESTS = [
    ("gifts:gift-list", _("Gifts"), Opened.GIFTS),
    ("school:project-list", _("Projects"), Opened.PROJECTS),
]


@cache
def pages_of_rows() -> dict[str, str]:
    """Each page that is one row's own, and which kind of row: {"gifts:gift-detail": "gift", …}."""
    found = {}
    kinds: list[Any] = list(row_names().values())
    for model in kinds:
        if hasattr(model, "get_absolute_url"):
            with suppress(AttributeError, NoReverseMatch, ObjectDoesNotExist, StopIteration):
                match = resolve(urlsplit(model(pk=1).get_absolute_url()).path)
                # A picture's address is a file.
                if match.kwargs == {"pk": 1} and match.view_name != "funding:attachment":
                    found[match.view_name] = str(model._meta.model_name)
    return found


def history_url(match: ResolverMatch | None) -> str:
    """Where the changes of the row on this page stand."""
    kind = pages_of_rows().get(match.view_name) if match else None
    if match is None or kind is None:
        return ""
    return reverse("story:row-history", kwargs={"slug": kind, "pk": match.kwargs["pk"]})


def bar(request: HttpRequest) -> dict[str, Any]:
    """`bar` (label, url, current), the desk, a token that lets a form be saved only once, `here` (the address), and the
    other books that the person belongs to."""
    desk = getattr(request, "desk", None)
    if desk is None:
        return {"bar": [], "desk": None}
    match = request.resolver_match
    room = match.namespace if match else ""
    places = [
        {"label": label, "url": reverse(name), "current": room == name.split(":")[0]}
        for name, label, what in (PLACES if desk.writes else [*PLACES, *FOR_GUESTS])
        if desk.reads(what)
    ]
    once_token = request.POST.get("once") or uuid.uuid4().hex
    return {
        "bar": places,
        "desk": desk,
        "once_token": once_token,
        "here": request.get_full_path(),
        "history_url": history_url(match) if desk.writes else "",
        "other_books": getattr(request, "other_books", []),
    }
