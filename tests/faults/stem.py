"""A warmed process that grows servers: each is a fork, in which `manage.py start` runs from its first line on.

What a fork spares is loading Python, the libraries and the templates, nothing else: the door is opened, the
database is looked at and the site is served by the command itself, in a process that holds no connection
from before. It reads one order a line and answers each with one line.
"""

from __future__ import annotations

import json
import os
import signal
import sys
from collections.abc import Callable
from typing import Any

import django
from django.conf import settings
from django.core.management import call_command
from django.db import connections


def warm(sessions: list[str], places: list[int]) -> None:
    """Loads what the first requests of a server would load."""
    from django.test import Client

    # What a command loads when it is called: a server under another user may not be able to read it.
    from partners.agenda import check_book  # noqa: F401
    from partners.config import serving
    from partners.management.commands import start  # noqa: F401

    serving.listen("127.0.0.1", 0).close()

    client = Client(SERVER_NAME="localhost")
    client.cookies["sessionid"] = sessions[0]
    for address in ("/visits/new/", "/gifts/new/", f"/partners/{places[0]}/", "/changes/", "/"):
        client.get(address)
    client.post("/visits/new/", {"happened": ""})
    client.post("/gifts/new/", {"form": ""})


def grow(work: Callable[[], Any]) -> int:
    """The number of a child that does the work and ends without a word."""
    sys.stdout.flush()
    child = os.fork()
    if child:
        return child
    try:
        work()
        os._exit(0)
    except BaseException as problem:
        print(f"{type(problem).__name__}: {problem}", file=sys.stderr, flush=True)
        os._exit(1)


def serve(port: int, log: str, **limits: Any) -> int:
    def work() -> None:
        quiet = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        hold_back(**limits)
        call_command("start", host="127.0.0.1", port=port, no_browser=True, empty=False)

    return grow(work)


def hold_back(file_size: int = 0, user: int = 0, timeout: float = 0) -> None:
    """What stands in this server's way: no file beyond a size, another user's folder, little patience for a lock."""
    import resource

    if file_size:
        resource.setrlimit(resource.RLIMIT_FSIZE, (file_size, resource.getrlimit(resource.RLIMIT_FSIZE)[1]))
    if timeout:
        settings.DATABASES["default"]["OPTIONS"]["timeout"] = timeout
    if user:
        os.setgid(user)
        os.setuid(user)


def judge(name: str, seed: str, saved: list[str]) -> Any:
    """The verdict on the book at this place, from a process of its own."""
    reading, writing = os.pipe()

    def work() -> None:
        from tests.faults.judge import verdict

        os.close(reading)
        if name:
            settings.DATABASES["default"]["NAME"] = connections["default"].settings_dict["NAME"] = name
        with open(seed, encoding="utf-8") as file:
            told = json.dumps(verdict(json.load(file), saved))
        connections.close_all()
        with os.fdopen(writing, "w") as pipe:
            pipe.write(told)

    child = grow(work)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        told = pipe.read()
    end(child, 0)
    return json.loads(told or "null")


def end(child: int, how: int) -> int:
    """Ends the child and waits until it is gone; gives how it ended."""
    if how:
        os.kill(child, how)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def make(seed: str) -> Any:
    """The book, begun anew; how it stands goes into the file `seed`."""
    from tests.faults.book import make_book

    made, before = make_book()
    with open(seed, "w", encoding="utf-8") as file:
        json.dump(before, file)
    warm(made["sessions"], made["places"])
    connections.close_all()
    return made


ORDERS: dict[str, Callable[..., Any]] = {"make": make, "serve": serve, "judge": judge, "end": end}


def main() -> None:
    django.setup()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for line in sys.stdin:
        order = json.loads(line)
        print(json.dumps(ORDERS[order.pop("do")](**order)), flush=True)


if __name__ == "__main__":
    main()
