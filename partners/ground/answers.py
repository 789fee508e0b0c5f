"""What holds for every request and answer, whatever page it is about: how much is taken, and who may keep a copy."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils.cache import patch_cache_control

# The largest file that is kept, and what a form says besides.
MOST_SENT = 32 * 1024 * 1024


class EveryAnswer:
    """Refuses what is too large before it is read, and says to caches that the pages belong to one person.

    A browser may keep a page for the way back, so that nothing typed is lost, but asks before it shows it anew.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        answer = too_large(request) if sent(request) > MOST_SENT else self.get_response(request)
        if not answer.has_header("Cache-Control"):
            patch_cache_control(answer, private=True, no_cache=True)
        return answer


def sent(request: HttpRequest) -> int:
    """How many bytes the request says it has."""
    said = str(request.META.get("CONTENT_LENGTH") or "")
    return int(said) if said.isascii() and said.isdecimal() and len(said) < 20 else 0


def too_large(request: HttpRequest) -> HttpResponse:
    return render(request, "413.html", {"most": MOST_SENT // 1024**2}, status=413)


def forgets_pages(view: Callable[..., HttpResponseBase]) -> Callable[..., HttpResponseBase]:
    """The browser throws away the pages it kept: on a machine that others use, Back shows none of them."""

    @wraps(view)
    def forgetting(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        answer = view(request, *args, **kwargs)
        answer["Clear-Site-Data"] = '"cache"'
        return answer

    return forgetting
