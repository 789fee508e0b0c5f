"""Guards that every page has: headers, forms from elsewhere, where a page leads, what an error tells."""

from __future__ import annotations

import logging
import runpy
import sys
from pathlib import Path
from typing import Any

import pytest
from django.http import HttpResponse
from django.test import RequestFactory
from django.urls import path, reverse

from partners.config import environment, logs
from partners.ground import answers, returning
from tests.attack.guard import FOREIGN, OWN, Site, guard, patched, set_to

TODAY = "/"
SETTINGS = Path(environment.__file__).parent / "settings.py"


def untouched(_self: Any, _request: Any, response: Any) -> Any:
    return response


def read_settings(site: Site, hosts: str = "") -> dict[str, Any]:
    """The settings as they are where these hosts are named."""
    for name in ("PARTNER_BOOK_DEBUG", "PARTNER_BOOK_SECURE"):
        site.patch.delenv(name, raising=False)
    site.patch.setenv("PARTNER_BOOK_HOSTS", hosts)
    return runpy.run_path(str(SETTINGS))


@guard(
    "A form from elsewhere is refused (CSRF)",
    "3.5",
    patched("django.middleware.csrf.CsrfViewMiddleware.process_view", lambda *_args: None),
)
def _(site: Site) -> None:
    browser = site.browser(site.june, enforce_csrf_checks=True)
    assert browser.post(reverse("wish_list:need-new"), {"what": "wool", "quantity": "1"}).status_code == 403
    assert not site.june.program.needs.exists()


@guard(
    "No other site shows a page in a frame (clickjacking)",
    "3.4",
    patched("csp.middleware.CSPMiddleware.process_response", untouched),
)
def _(site: Site) -> None:
    assert "frame-ancestors 'none'" in site.browser(site.june).get(TODAY).get("Content-Security-Policy", "")


@guard(
    "No other site shows one in an old browser (X-Frame-Options)",
    "3.4",
    patched("django.middleware.clickjacking.XFrameOptionsMiddleware.process_response", untouched),
)
def _(site: Site) -> None:
    assert site.browser(site.june).get(TODAY).get("X-Frame-Options") == "DENY"


def loosened(site: Site) -> None:
    site.settings.CONTENT_SECURITY_POLICY = {"DIRECTIVES": {"default-src": ["'self'", "'unsafe-inline'"]}}


@guard("No script but our own files runs (content policy)", "3.4", loosened)
def _(site: Site) -> None:
    said = site.browser(site.june).get(TODAY)["Content-Security-Policy"]
    policy = dict(part.strip().split(" ", 1) for part in said.split(";"))
    assert policy["default-src"] == "'self'"
    assert policy["object-src"] == policy["base-uri"] == "'none'"
    assert not {"script-src", "style-src", "connect-src"} & set(policy)
    assert "unsafe" not in said


@guard("A browser takes no file for another kind (nosniff)", "3.2", set_to(SECURE_CONTENT_TYPE_NOSNIFF=False))
def _(site: Site) -> None:
    assert site.browser(site.june).get(TODAY).get("X-Content-Type-Options") == "nosniff"


@guard("Other sites do not learn which page one came from", "3.4", set_to(SECURE_REFERRER_POLICY=None))
def _(site: Site) -> None:
    assert site.browser(site.june).get(TODAY).get("Referrer-Policy") == "same-origin"


@guard("A page is not reached through a foreign window", "3.4", set_to(SECURE_CROSS_ORIGIN_OPENER_POLICY=None))
def _(site: Site) -> None:
    assert site.browser(site.june).get(TODAY).get("Cross-Origin-Opener-Policy") == "same-origin"


@guard(
    "What a form leads to is a page of this site (open redirect)",
    "3.7",
    patched("partners.ground.returning.stays_here", lambda *_args: True),
)
def _(site: Site) -> None:
    elsewhere = (
        "https://elsewhere.example.org/", "//elsewhere.example.org/", "/\\elsewhere.example.org",
        "///elsewhere.example.org",        "http://testserver@elsewhere.example.org/",
        "https:///elsewhere.example.org", "javascript:alert(1)", "nonsense",
        "http://[", "/" + "a" * 3000,
    )  # fmt: skip
    for wanted in elsewhere:
        for request in (
            RequestFactory().post("/", {"next": wanted}),
            RequestFactory().get("/", headers={"Referer": wanted}),
        ):
            assert returning.safe_return(request) == "agenda:today", wanted


def wherever(site: Site) -> None:
    site.patch.setattr(
        "django.contrib.auth.views.LoginView.get_redirect_url", lambda view: view.request.GET.get("next")
    )


@guard("What signing in leads to is a page of this site", "3.7", wherever)
def _(site: Site) -> None:
    site.quick_passwords()
    place = reverse("program:sign-in") + "?next=https://elsewhere.example.org/"
    answer = site.browser().post(place, {"username": "june", "password": "a long enough secret"})
    assert answer["Location"] == reverse("agenda:today")


@guard("Only the site's own names are answered (host header)", "4.1", set_to(ALLOWED_HOSTS=["*"]))
def _(site: Site) -> None:
    answer = site.browser(site.june).get(TODAY, headers={"host": "elsewhere.example.org"})
    assert answer.status_code == 400
    assert b"elsewhere" not in answer.content


@guard(
    "A line end in an address begins no header",
    "1.2",
    patched("django.http.response.ResponseHeaders._convert_to_charset", lambda _self, value, *_args, **_more: value),
)
def _(site: Site) -> None:
    with pytest.raises(ValueError, match="newlines"):
        HttpResponse()["Content-Disposition"] = "attachment\r\nSet-Cookie: sessionid=1"


def fails(*_args: Any, **_more: Any) -> None:
    raise RuntimeError("quaysecret detail")


@guard("A page that fails tells nothing of why", "16.5", set_to(DEBUG=True))
def _(site: Site) -> None:
    site.patch.setattr("partners.agenda.views.today", fails)
    answer = site.browser(site.june, raise_request_exception=False).get(TODAY + "?q=quayasked")
    assert answer.status_code == 500
    assert "went wrong on our side" in answer.content.decode()
    assert not [word for word in (b"quaysecret", b"RuntimeError", b"Traceback", b"quayasked") if word in answer.content]


@guard(
    "Nothing shows its inside unless asked to (DEBUG)",
    "13.4",
    patched("partners.config.environment.flag", lambda *_args: True),
)
def _(site: Site) -> None:
    assert read_settings(site)["DEBUG"] is False


@guard(
    "In public all goes through TLS, and cookies too",
    "12.2, 3.3",
    patched("partners.config.environment.flag", lambda *_args: False),
)
def _(site: Site) -> None:
    public = read_settings(site, "book.example.org")
    assert all(public[name] for name in ("SECURE_SSL_REDIRECT", "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE"))
    assert public["SECURE_HSTS_SECONDS"] >= 31_536_000
    assert "book.example.org" in public["ALLOWED_HOSTS"]


@guard(
    "No way in for administrators (no admin site)",
    "13.4",
    set_to(ROOT_URLCONF=type("Urls", (), {"urlpatterns": [path("admin/", HttpResponse)]})),
)
def _(site: Site) -> None:
    assert site.browser(site.june).get("/admin/").status_code == 404
    assert "django.contrib.admin" not in site.settings.INSTALLED_APPS


@guard(
    "Caches on the way keep no page, and the browser's own asks first",
    "14.3",
    patched("partners.ground.answers.patch_cache_control", lambda *_args, **_more: None),
)
def _(site: Site) -> None:
    site.book()
    browser = site.browser(site.june)
    for place in (
        TODAY,
        f"/partners/{OWN}/",
        f"/sheets/leave-behind/{OWN}/pdf/",
        "/files/everything.json",
        "/nowhere/",
    ):
        said = browser.get(place).get("Cache-Control", "")
        assert "private" in said, place
        assert "no-cache" in said or "no-store" in said, place


def kept_after_signing_out(site: Site) -> None:
    site.patch.setattr("django.http.response.ResponseHeaders.__setitem__", forgetful)


def forgetful(headers: Any, name: str, value: str) -> None:
    if name != "Clear-Site-Data":
        headers._store[name.lower()] = (name, str(value))


@guard("After signing out, Back shows none of the pages", "14.3, 7.4", kept_after_signing_out)
def _(site: Site) -> None:
    assert site.browser(site.june).post(reverse("program:sign-out")).get("Clear-Site-Data") == '"cache"'


@guard(
    "What is too large is refused before it is read",
    "5.2, 4.2",
    lambda site: site.patch.setattr(answers, "MOST_SENT", 2**60),
)
def _(site: Site) -> None:
    sent = {"CONTENT_LENGTH": str(33 * 1024**2), "CONTENT_TYPE": "multipart/form-data; boundary=x"}
    answer = site.browser().generic("POST", reverse("program:sign-in"), b"", **sent)
    assert answer.status_code == 413
    assert "At most 32 MB" in answer.content.decode()


@guard("What is typed is shown as words (HTML)", "1.2", lambda site: raw_pages(site))
def _(site: Site) -> None:
    page = site.browser(site.june).get(reverse("story:search"), {"q": "<x7q>"}).content.decode()
    assert "&lt;x7q&gt;" in page
    assert "<x7q>" not in page


def raw_pages(site: Site) -> None:
    [engine] = site.settings.TEMPLATES
    site.settings.TEMPLATES = [{**engine, "OPTIONS": {**engine["OPTIONS"], "autoescape": False}}]


@guard(
    "Another program's row is not there",
    "8.2",
    patched("partners.program.desk.Desk.__getattr__", lambda desk, name: everybodys(name)),
)
def _(site: Site) -> None:
    site.book()
    answer = site.browser(site.june).get(f"/partners/{FOREIGN}/")
    assert answer.status_code == 404
    assert "Ottosecret" not in answer.content.decode()


def everybodys(name: str) -> Any:
    from partners.program.desk import row_names

    if name not in row_names():
        raise AttributeError(name)
    return row_names()[name]._default_manager.all()


@guard(
    "A log for a server holds nothing that was typed, and no secret address",
    "16.2, 16.4",
    patched("partners.config.logs.Reticent.format", lambda _self, record: logging.Formatter().format(record)),
)
def _(site: Site) -> None:
    try:
        raise RuntimeError("quaysecret detail")
    except RuntimeError:
        problem = sys.exc_info()
    said = ("Internal Server Error: %s", ("/sheets/calendar/quaysecret.ics",), problem)
    record = logging.LogRecord("django.request", logging.ERROR, __file__, 1, *said)
    written = logs.Reticent().format(record)
    assert "Internal Server Error" in written
    assert "quaysecret" not in written
