"""Going back to where the person came from."""

from __future__ import annotations

from django.http import HttpRequest
from django.utils.http import url_has_allowed_host_and_scheme


def safe_return(request: HttpRequest, otherwise: str = "agenda:today") -> str:
    """The page the form was on, when that is a page of this site; `otherwise` is a URL name."""
    wanted = request.POST.get("next") or request.headers.get("Referer", "")
    if url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure()):
        return wanted
    return otherwise
