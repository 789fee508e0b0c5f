"""Who calls, for a server that does not pass on what the proxy in front of it says (gunicorn)."""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment


def told_by_proxy(application: WSGIApplication, proxy: str) -> WSGIApplication:
    """Takes the caller's address from the last entry of X-Forwarded-For, the proxy's own; only where the proxy calls.

    Without it all callers have the proxy's address, and one who guesses passwords locks out everybody. Through a
    socket of the file system, which has no address, nobody but the proxy calls.
    """

    def call(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        said = str(environ.get("HTTP_X_FORWARDED_FOR", "")).rpartition(",")[2].strip()
        if environ.get("REMOTE_ADDR", "") in ("", proxy) and is_address(said):
            environ["REMOTE_ADDR"] = said
        return application(environ, start_response)

    return call


def is_address(text: str) -> bool:
    try:
        ipaddress.ip_address(text)
    except ValueError:
        return False
    return True
