"""The service worker: one script for the whole site, with what it has to know in front of it.

It is served from the top, since a worker rules only over what lies below its own address.
"""

from __future__ import annotations

import hashlib
import json
from functools import cache
from pathlib import Path
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import HttpRequest, HttpResponse
from django.templatetags.static import static
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from partners.ground.look import STYLES

SCRIPT, STORE = "partners/worker.js", "partners/kept.js"
# What the pages that open without a signal are made of.
FILES = (
    STORE, *STYLES, "partners/kept.css", "partners/phone.js", "partners/kept_form.js", "partners/gift.js",
    "partners/kept_list.js", "partners/site.js", "partners/icons.svg", "partners/icon.svg",
    "partners/app.webmanifest", "partners/icon-192.png", "django_htmx/htmx-2.min.js",
)  # fmt: skip


def content(name: str) -> bytes:
    found = finders.find(name)
    return Path(str(found)).read_bytes() if found else b""


@cache
def version() -> str:
    """Changes with any of the files, so that a browser takes all of them anew."""
    return hashlib.sha256(b"".join(content(name) for name in (SCRIPT, *FILES))).hexdigest()[:16]


def site() -> dict[str, Any]:
    names = {
        "visit": "visits:visit-new",
        "gift": "gifts:gift-new",
        "today": "agenda:today",
        "kept": "asking:kept",
        "pages": "asking:kept-pages",
        "state": "asking:kept-state",
        "signIn": "program:sign-in",
        "signOut": "program:sign-out",
        "join": "program:join",
    }
    return {
        "version": version(),
        "store": static(STORE),
        "styles": [static(name) for name in STYLES],
        "files": [static(name) for name in FILES],
        "addresses": {key: reverse(name) for key, name in names.items()},
        "title": _("No signal"),
        "words": _("There is no signal here, and nothing of your book is kept on this device. Try again later."),
    }


@require_GET
@login_not_required
def worker(request: HttpRequest) -> HttpResponse:
    script = f"const SITE = {json.dumps(site())};\n{content(SCRIPT).decode()}"
    return HttpResponse(script, content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"})
