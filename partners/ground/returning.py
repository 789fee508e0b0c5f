"""Going back to where the person came from."""

from __future__ import annotations

from django.http import HttpRequest
from django.utils.http import url_has_allowed_host_and_scheme

# Django refuses to lead to an address longer than 2,048 signs, and what was done is saved by then.
LONGEST = 2_000


def safe_return(request: HttpRequest, otherwise: str = "agenda:today") -> str:
    """The page the form was on, when that is a page of this site; `otherwise` is a URL name."""
    wanted = request.POST.get("next") or request.headers.get("Referer", "")
    if len(wanted) <= LONGEST and wanted.startswith(("/", "http://", "https://")) and stays_here(request, wanted):
        return wanted
    return otherwise


def stays_here(request: HttpRequest, wanted: str) -> bool:
    return url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
