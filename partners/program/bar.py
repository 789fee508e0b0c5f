"""The bar at the top of every page: only what exists and is open to the person."""

from __future__ import annotations

import uuid
from typing import Any

from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

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
        for name, label, what in PLACES
        if desk.reads(what)
    ]
    once_token = request.POST.get("once") or uuid.uuid4().hex
    return {
        "bar": places,
        "desk": desk,
        "once_token": once_token,
        "here": request.get_full_path(),
        "other_books": getattr(request, "other_books", []),
    }
