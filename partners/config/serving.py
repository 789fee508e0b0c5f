"""Opens the door, serves the site behind it and shows it in a browser where there is one."""

from __future__ import annotations

import contextlib
import errno
import logging
import os
import signal
import socket
import sys
import threading
import webbrowser
from typing import TYPE_CHECKING, Any

from waitress.server import create_server

from partners.config.hindrance import Stopped
from partners.ground.answers import MOST_SENT

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIApplication

THREADS = 8


def listen(host: str, port: int) -> socket.socket:
    """A socket that takes calls at this address; callers wait in it until `serve` answers. Port 0 takes any free one.

    Raises Stopped when the port is in use or not allowed, or when the address is not this machine's.
    """
    try:
        family, _, _, _, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except socket.gaierror as problem:
        raise Stopped(f"{host} is no address of this machine: leave --host out, or use 0.0.0.0 for all.") from problem
    door = socket.socket(family, socket.SOCK_STREAM)
    try:
        if sys.platform == "win32":
            door.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        door.bind(place)
        door.listen(128)
    except OSError as problem:
        door.close()
        raise _of_port(problem, host, port) from problem
    return door


def _of_port(problem: OSError, host: str, port: int) -> Stopped:
    if problem.errno == errno.EADDRINUSE:
        other = free_port_after(host, port)
        return Stopped(
            f"Port {port} is in use, maybe by Partner Book itself in another window (then it is at "
            f"http://{_spelled(host)}:{port}/ already): end that, or start on the next free port with --port {other}."
        )
    if problem.errno in (errno.EACCES, errno.EPERM):
        return Stopped(f"Port {port} is kept for the system: use another, for example --port 8000.")
    if problem.errno == errno.EADDRNOTAVAIL:
        return Stopped(f"{host} is no address of this machine: leave --host out, or use 0.0.0.0 for all.")
    return Stopped(f"Port {port} on {host} cannot be used ({problem.strerror}): try another with --port.")


def free_port_after(host: str, port: int) -> int:
    """The first port above this one that nobody uses now, or any free one when none of the next hundred is."""
    for candidate in [*range(port + 1, min(port + 101, 65_536)), 0]:
        with contextlib.suppress(Stopped, OSError), _tried(host, candidate) as door:
            return int(door.getsockname()[1])
    raise Stopped("No port of this machine is free: end some programs and run the same command again.")


def _tried(host: str, port: int) -> socket.socket:
    family, _, _, _, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    door = socket.socket(family, socket.SOCK_STREAM)
    try:
        door.bind(place)
    except OSError:
        door.close()
        raise
    return door


def _spelled(host: str) -> str:
    host = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(host, host)  # noqa: S104
    return f"[{host}]" if ":" in host else host


def address(door: socket.socket) -> str:
    """Where a browser on this machine finds what listens at the door."""
    host, port = door.getsockname()[:2]
    return f"http://{_spelled(host)}:{port}/"


def server(application: WSGIApplication, door: socket.socket, *, behind_proxy: bool) -> Any:
    """What answers at the door once it is run, until Ctrl-C; then it lets running answers finish.

    Behind a proxy, its word on the caller's address and on TLS is taken, from PARTNER_BOOK_PROXY (127.0.0.1) only.
    """
    # It would tell the teacher of every moment in which one request waits for another.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    proxy = {
        "trusted_proxy": os.environ.get("PARTNER_BOOK_PROXY") or "127.0.0.1",
        "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto"},
        "clear_untrusted_proxy_headers": True,
    }
    more = proxy if behind_proxy else {}
    return create_server(
        application, sockets=[door], threads=THREADS, ident=None, max_request_body_size=MOST_SENT, **more
    )


def end_on_request() -> None:
    """Takes the system's request to end like Ctrl-C, so that what is being answered is finished first."""
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGTERM, signal.default_int_handler)


def show(url: str) -> None:
    """Opens the page in a browser, if this machine has one with a window; never waits for it."""
    if sys.platform not in ("win32", "darwin") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return
    with contextlib.suppress(webbrowser.Error):
        browser = webbrowser.get()
        # A plain GenericBrowser is one that takes over the terminal.
        if type(browser) is not webbrowser.GenericBrowser:
            threading.Thread(target=browser.open, args=(url,), daemon=True).start()
