"""Logs for a server: one line of JSON for each request and each fault, in which nobody can be recognized.

What a request said stays out: of an address only its name is told, of a fault only the kind and the places in the code,
since the words of an exception may hold what was typed. A line of another library keeps its fixed words, never what
fills them.
"""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from traceback import walk_tb
from typing import Any

from django.conf import settings
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from pythonjsonlogger.json import JsonFormatter

log = logging.getLogger("partners.request")
CHECKOUT = Path(__file__).resolve().parent.parent.parent
# What a line of ours may say besides; anything else that is attached to a record stays out.
FIELDS = ("method", "page", "status", "ms", "program")
MOST_CAUSES = 6


class RequestLog:
    """One line for each request, when its answer begins to go out."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        began = time.perf_counter()
        answer = self.get_response(request)
        if log.isEnabledFor(logging.INFO):
            desk = getattr(request, "desk", None)
            facts = {
                "method": request.method if request.method in METHODS else "other",
                "page": page_of(request),
                "status": answer.status_code,
                "ms": round((time.perf_counter() - began) * 1000, 1),
                "program": desk.program.pk if desk is not None else None,
            }
            log.info("request", extra=facts)
        return answer


METHODS = {"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"}


def page_of(request: HttpRequest) -> str:
    """The name of the address: what stands in the address itself may be what somebody searched for."""
    if request.resolver_match is not None:
        return request.resolver_match.view_name
    return "static" if request.path_info.startswith(f"/{settings.STATIC_URL.strip('/')}/") else "none"


class Reticent(JsonFormatter):
    """A record without anything that came from a request."""

    def add_fields(self, log_data: dict[str, Any], record: logging.LogRecord, message_dict: dict[str, Any]) -> None:
        log_data.clear()
        log_data |= {
            "time": time.strftime("%Y-%m-%dT%H:%M:%S", time.gmtime(record.created)) + f".{int(record.msecs):03}Z",
            "level": record.levelname,
            "logger": record.name,
            "words": fixed_words(record),
        }
        log_data |= {name: getattr(record, name) for name in FIELDS if name in record.__dict__}
        if record.exc_info and record.exc_info[1] is not None:
            log_data["fault"] = list(faults(record.exc_info[1]))
        elif record.name != log.name:
            log_data["at"] = f"{place(record.pathname)}:{record.lineno}"


def fixed_words(record: logging.LogRecord) -> str:
    """The words of a line without what fills them; none where both may have been joined before."""
    ours = record.name.startswith("partners.")
    return str(record.msg) if ours or record.args else ""


def faults(problem: BaseException) -> Iterator[dict[str, Any]]:
    """The problem and what lies beneath it, each by its kind, its code, and where it went through the code."""
    beneath: BaseException | None = problem
    for _turn in range(MOST_CAUSES):
        if beneath is None:
            return
        told = {"kind": f"{type(beneath).__module__}.{type(beneath).__qualname__}"}
        code = getattr(beneath, "sqlite_errorname", None) or getattr(beneath, "sqlstate", None)
        if code:
            told["code"] = str(code)
        frames = [
            f"{place(frame.f_code.co_filename)}:{line} {frame.f_code.co_name}"
            for frame, line in walk_tb(beneath.__traceback__)
        ]
        yield {**told, "through": frames}
        beneath = beneath.__cause__ or (None if beneath.__suppress_context__ else beneath.__context__)


def place(path: str) -> str:
    """A file of the project from its folder on, another one from the folder of libraries on."""
    if path.startswith(f"{CHECKOUT}/"):
        path = path.removeprefix(f"{CHECKOUT}/")
    return path.rpartition("site-packages/")[2]
