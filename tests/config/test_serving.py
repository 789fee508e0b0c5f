"""The door, and what answers behind it."""

from __future__ import annotations

import socket
import sys
import threading
import urllib.request
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import pytest

from partners.config import serving
from partners.config.hindrance import Stopped


def test_a_port_in_use_is_told_with_the_next_free_one():
    with serving.listen("127.0.0.1", 0) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(Stopped) as stopped:
            serving.listen("127.0.0.1", port)
    sentence = str(stopped.value)
    assert sentence.startswith(f"Port {port} is in use")
    proposed = int(sentence.rsplit(maxsplit=1)[-1].rstrip("."))
    serving.listen("127.0.0.1", proposed).close()


def test_the_next_free_port_skips_those_in_use():
    with serving.listen("127.0.0.1", 0) as first:
        port = first.getsockname()[1]
        following = serving.free_port_after("127.0.0.1", port)
        with serving.listen("127.0.0.1", following):
            assert serving.free_port_after("127.0.0.1", port) != following


def test_a_port_just_left_is_free_again():
    with serving.listen("127.0.0.1", 0) as door:
        port = door.getsockname()[1]
        with socket.create_connection(("127.0.0.1", port)):
            door.accept()[0].close()
    with serving.listen("127.0.0.1", port) as again:
        assert again.getsockname()[1] == port


@pytest.mark.parametrize("host", ["192.0.2.1", "no-such-name.invalid"])
def test_an_address_of_another_machine_is_told(host):
    # 192.0.2.0/24 and .invalid are set aside by RFC 5737 and RFC 6761, so that no machine has them.
    with pytest.raises(Stopped, match=f"{host} is no address of this machine"):
        serving.listen(host, 8000)


@pytest.mark.parametrize(("host", "start"), [("127.0.0.1", "http://127.0.0.1:"), ("0.0.0.0", "http://127.0.0.1:")])
def test_the_address_is_one_a_browser_here_can_open(host, start):
    with serving.listen(host, 0) as door:
        assert serving.address(door) == f"{start}{door.getsockname()[1]}/"


def tell(environ, start_response):
    start_response("200 OK", [("Content-Type", "text/plain")])
    return [f"{environ['wsgi.url_scheme']} {environ['REMOTE_ADDR']}".encode()]


@contextmanager
def running(*, behind_proxy: bool) -> Iterator[str]:
    with serving.listen("127.0.0.1", 0) as door:
        server = serving.server(tell, door, behind_proxy=behind_proxy)

        def serve() -> None:
            # The wait for the next request can meet the door just closed.
            with suppress(OSError):
                server.run()

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        yield serving.address(door)
        server.close()
        thread.join(10)


@pytest.mark.parametrize(("behind_proxy", "told"), [(True, b"https 198.51.100.7"), (False, b"http 127.0.0.1")])
def test_what_a_proxy_says_is_believed_only_behind_one(behind_proxy, told):
    says = {"X-Forwarded-Proto": "https", "X-Forwarded-For": "198.51.100.7"}
    with running(behind_proxy=behind_proxy) as url:
        asked = urllib.request.Request(url, headers=says)  # noqa: S310
        with urllib.request.urlopen(asked, timeout=10) as answer:  # noqa: S310
            assert answer.read() == told
            assert "Server" not in answer.headers


class Window(webbrowser.BaseBrowser):
    def __init__(self) -> None:
        super().__init__()
        self.closed = threading.Event()
        self.opened = threading.Event()

    def open(self, url: str, new: int = 0, autoraise: bool = True) -> bool:
        self.opened.set()
        return self.closed.wait(30)


def test_a_browser_that_never_returns_is_not_waited_for(monkeypatch):
    window = Window()
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(webbrowser, "get", lambda: window)
    serving.show("http://127.0.0.1:8000/")
    assert window.opened.wait(10)
    assert not window.closed.is_set()
    window.closed.set()


def test_no_browser_opens_where_there_is_no_window_for_it(monkeypatch):
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    looked = []
    monkeypatch.setattr(webbrowser, "get", lambda: looked.append("for a browser"))
    serving.show("http://127.0.0.1:8000/")
    assert looked == []


def test_a_browser_of_the_terminal_is_left_alone(monkeypatch):
    monkeypatch.setenv("DISPLAY", ":0")
    text = webbrowser.GenericBrowser("a-text-browser")
    monkeypatch.setattr(text, "open", lambda url: pytest.fail("it would take over the terminal"))
    monkeypatch.setattr(webbrowser, "get", lambda: text)
    before = threading.active_count()
    serving.show("http://127.0.0.1:8000/")
    assert threading.active_count() == before
