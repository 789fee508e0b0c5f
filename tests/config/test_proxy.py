"""The site behind a real proxy with TLS, by the very configuration that DEVELOPERS.md gives."""

from __future__ import annotations

import http.client
import os
import re
import shutil
import socket
import ssl
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from urllib.parse import urlencode

import pytest
from axes.models import AccessAttempt
from django.core.wsgi import get_wsgi_application

from partners.config import serving
from partners.config.first_run import CHECKOUT
from tests.people import SECRET

HOST = "book.example.org"
CERTIFICATE = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", f"/CN={HOST}"]
CERTIFICATE += ["-addext", "subjectAltName=IP:127.0.0.1"]
SERVED = {
    "ALLOWED_HOSTS": [HOST], "SESSION_COOKIE_SECURE": True, "CSRF_COOKIE_SECURE": True, "SECURE_SSL_REDIRECT": True,
    "SECURE_HSTS_SECONDS": 31_536_000, "SECURE_PROXY_SSL_HEADER": ("HTTP_X_FORWARDED_PROTO", "https"),
    "AXES_FAILURE_LIMIT": 3,
}  # fmt: skip
pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(not (shutil.which("nginx") and shutil.which("openssl")), reason="this machine has no nginx"),
]


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def documented(folder: Path, site: int, plain: int, secure: int) -> str:
    """The block of DEVELOPERS.md, with ports and files of this test."""
    text = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = re.findall(r"```nginx\n(.*?)```", text, re.DOTALL)[0]
    for ours, theirs in [
        ("listen 80;", f"listen 127.0.0.1:{plain};"),
        ("listen 443 ", f"listen 127.0.0.1:{secure} "),
        ("127.0.0.1:8000", f"127.0.0.1:{site}"),
        ("/etc/ssl/book.example.org.pem", f"{folder}/cert.pem"),
        ("/etc/ssl/private/book.example.org.key", f"{folder}/key.pem"),
    ]:
        assert ours in block
        block = block.replace(ours, theirs)
    places = "".join(
        f"{kind}_temp_path {folder}/{kind};\n" for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    user = "user root;" if os.geteuid() == 0 else ""
    return f"daemon off; {user} pid {folder}/pid; events {{}}\nhttp {{\naccess_log off;\n{places}{block}}}\n"


@pytest.fixture
def ports(tmp_path: Path, settings, june) -> Iterator[tuple[int, int]]:
    """Where nginx answers in clear and by TLS; June can sign in behind it."""
    for name, value in SERVED.items():
        setattr(settings, name, value)
    subprocess.run(
        [*CERTIFICATE, "-keyout", tmp_path / "key.pem", "-out", tmp_path / "cert.pem"], check=True, capture_output=True
    )
    plain, secure = free_port(), free_port()
    with serving.listen("127.0.0.1", 0) as door:
        server = serving.server(get_wsgi_application(), door, behind_proxy=True)

        def serve() -> None:
            with suppress(OSError):
                server.run()

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        (tmp_path / "nginx.conf").write_text(documented(tmp_path, door.getsockname()[1], plain, secure))
        nginx = ["nginx", "-p", str(tmp_path), "-e", str(tmp_path / "error.log"), "-c", str(tmp_path / "nginx.conf")]
        with subprocess.Popen(nginx) as running:
            until_it_answers(secure)
            yield plain, secure
            running.terminate()
        server.close()
        thread.join(10)
        server.task_dispatcher.shutdown()


def until_it_answers(port: int) -> None:
    for _try in range(100):
        with suppress(OSError), socket.create_connection(("127.0.0.1", port), 1):
            return
        time.sleep(0.1)
    pytest.fail("nginx does not answer.")


class Caller:
    """Somebody at an address of their own, who keeps cookies."""

    def __init__(self, port: int, address: str, certificate: Path) -> None:
        self.port, self.address = port, address
        self.trust = ssl.create_default_context(cafile=certificate)
        self.cookies: dict[str, str] = {}

    def ask(self, path: str, method: str = "GET", body: bytes | None = None, **more: str) -> http.client.HTTPResponse:
        line = http.client.HTTPSConnection("127.0.0.1", self.port, context=self.trust, source_address=(self.address, 0))
        origin = f"https://{HOST}:{self.port}"
        headers = {"Host": f"{HOST}:{self.port}", "Origin": origin, "Referer": f"{origin}/", **more}
        headers["Cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        line.request(method, path, body, headers)
        answer = line.getresponse()
        answer.read()
        line.close()
        for cookie in answer.headers.get_all("Set-Cookie") or []:
            assert "Secure" in cookie
            name, _equals, value = cookie.partition(";")[0].partition("=")
            self.cookies[name] = value
        return answer

    def sign_in(self, password: str, claimed: str = "") -> http.client.HTTPResponse:
        self.ask("/sign-in/")
        typed = {"username": "june", "password": password, "csrfmiddlewaretoken": self.cookies["csrftoken"]}
        form = {"Content-Type": "application/x-www-form-urlencoded"}
        return self.ask("/sign-in/", "POST", urlencode(typed).encode(), **form, **{"X-Forwarded-For": claimed})


def test_the_documented_proxy_serves_the_book_and_tells_callers_apart(ports: tuple[int, int], tmp_path: Path) -> None:
    plain, secure = ports
    certificate = tmp_path / "cert.pem"
    line = http.client.HTTPConnection("127.0.0.1", plain)
    line.request("GET", "/partners/", headers={"Host": HOST})
    assert line.getresponse().getheader("Location") == f"https://{HOST}/partners/"
    line.close()

    guesser = Caller(secure, "127.0.0.2", certificate)
    answers = [guesser.sign_in("wrong", claimed=f"127.0.0.{n}").status for n in (3, 4, 5)]
    assert answers == [200, 200, 429]
    assert list(AccessAttempt.objects.values_list("ip_address", flat=True)) == ["127.0.0.2"]
    june = Caller(secure, "127.0.0.3", certificate)
    came_in = june.sign_in(SECRET)
    assert (came_in.status, came_in.getheader("Location")) == (302, "/")
    assert guesser.sign_in(SECRET, claimed="127.0.0.3").status == 429

    today = june.ask("/")
    assert (today.status, today.getheader("Strict-Transport-Security", "")[:16]) == (200, "max-age=31536000")
    kinds = [
        june.ask(f"/{name}").getheader("Content-Type") for name in ("worker.js", "static/partners/app.webmanifest")
    ]
    assert kinds == ["text/javascript; charset=utf-8", "application/manifest+json"]
    # Without its token a form is refused, but only after all of its ten megabytes came through.
    assert june.ask("/visits/new/", "POST", bytes(10 * 1024 * 1024)).status == 403
