"""What is answered when the book itself cannot be read or written: a sentence, and what was typed.

A fault of the code stays a fault, with its trace. What is told here is a full disk, a lock that somebody holds, a
folder that may not be written, a server of the database that is gone.
"""

from __future__ import annotations

import errno
import logging
import sys
from typing import Any

from django.db import DatabaseError, InterfaceError
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.template.loader import render_to_string
from django.utils.translation import gettext_lazy
from django.views.defaults import server_error

log = logging.getLogger("partners.trouble")

BUSY, FULL, READ_ONLY, GONE, DAMAGED = "busy", "full", "read_only", "gone", "damaged"
SENTENCES = {
    BUSY: gettext_lazy("The book is busy: something else is writing into it, maybe a long list. Wait a minute."),
    FULL: gettext_lazy("There is no room left on the disk that keeps the book. Whoever looks after it must make some."),
    READ_ONLY: gettext_lazy(
        "The book may not be written: its folder or its disk allows only reading. Whoever looks after it can mend that."
    ),
    GONE: gettext_lazy("The book does not answer. It may be starting again: wait a minute."),
    DAMAGED: gettext_lazy(
        "The disk that keeps the book refuses to read or to write. Whoever looks after it should look at it now, and "
        "have a backup at hand."
    ),
}
# SQLite's result codes (sqlite.org/rescode.html), without what its extended codes add in higher bits.
OF_SQLITE = {5: BUSY, 6: BUSY, 8: READ_ONLY, 10: DAMAGED, 11: DAMAGED, 13: FULL, 14: GONE, 26: DAMAGED}
# SQLSTATE, whole or by class (PostgreSQL's manual, Appendix A).
OF_POSTGRESQL = {
    "08": GONE, "40": BUSY, "53": GONE, "53100": FULL, "55P03": BUSY, "57": GONE, "57014": BUSY, "58": DAMAGED,
    "58030": DAMAGED, "25006": READ_ONLY,
}  # fmt: skip
OF_SYSTEM = {errno.ENOSPC: FULL, errno.EDQUOT: FULL, errno.EROFS: READ_ONLY}
# Nothing that opens a door is repeated on a page, and a list's packed rows would fill it.
NOT_SHOWN = ("csrfmiddlewaretoken", "once", "seen", "version")
LONGEST_SHOWN = 2_000


def kind_of(problem: BaseException | None) -> str | None:
    """Which trouble of the book lies beneath, or None where the code is at fault."""
    if isinstance(problem, OSError):
        return OF_SYSTEM.get(problem.errno or 0)
    if not isinstance(problem, DatabaseError | InterfaceError):
        return None
    cause = problem.__cause__
    code = getattr(cause, "sqlite_errorcode", None)
    if code is not None:
        return OF_SQLITE.get(code & 0xFF)
    if cause is None or not hasattr(cause, "sqlstate"):
        return None
    state = cause.sqlstate
    # A connection that broke says no state at all.
    if state is None:
        return GONE if type(cause).__name__ in ("OperationalError", "InterfaceError", "ConnectionTimeout") else None
    return OF_POSTGRESQL.get(state) or OF_POSTGRESQL.get(state[:2])


def failed(request: HttpRequest) -> HttpResponse:
    """Answers for whatever no view caught: 503 with a sentence for trouble of the book, 500 for a fault of the code."""
    kind = kind_of(sys.exc_info()[1])
    if kind is None:
        return server_error(request)
    answer = HttpResponse(page(request, kind), status=503)
    answer.headers["Retry-After"] = "30"
    answer.headers["Cache-Control"] = "no-store"
    # Django would write a trace for it, as for a fault of the code.
    answer._has_been_logged = True  # type: ignore[attr-defined]
    log.error("The book cannot be used: %s", kind)
    return answer


def page(request: HttpRequest, kind: str) -> str:
    """In our look, and made without a single question to the database."""
    sending = request.method == "POST"
    typed, whole = kept(request) if sending else ([], False)
    context = {
        "sentence": SENTENCES[kind],
        "sending": sending,
        "path": request.get_full_path(),
        "typed": typed if whole else [],
        "shown": [(name, value) for name, value in typed if is_shown(name, value)],
        "csrf_token": get_token(request) if whole else "",
    }
    return render_to_string("trouble.html", context)


def kept(request: HttpRequest) -> tuple[list[tuple[str, str]], bool]:
    """What was typed, name by name, and whether it can be sent again as it is: a password and a file cannot."""
    try:
        fields, files = request.POST, request.FILES
    except Exception:
        return [], False
    if any("password" in name for name in fields):
        return [], False
    typed = [(name, value) for name, values in fields.lists() for value in values if name != "csrfmiddlewaretoken"]
    return typed, not files and bool(typed)


def is_shown(name: str, value: Any) -> bool:
    return name.rpartition("-")[2] not in NOT_SHOWN and 0 < len(str(value).strip()) <= LONGEST_SHOWN
