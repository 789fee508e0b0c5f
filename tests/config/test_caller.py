"""The caller's address behind a proxy, for a server that leaves it to the site."""

from __future__ import annotations

from typing import Any

import pytest

from partners.config.caller import told_by_proxy


@pytest.mark.parametrize(
    ("calls", "said", "taken"),
    [
        ("127.0.0.1", "198.51.100.7", "198.51.100.7"),
        ("127.0.0.1", "203.0.113.9, 198.51.100.7", "198.51.100.7"),
        ("", "2001:db8::7", "2001:db8::7"),
        ("203.0.113.9", "198.51.100.7", "203.0.113.9"),
        ("127.0.0.1", "", "127.0.0.1"),
        ("127.0.0.1", "198.51.100.7, <script>", "127.0.0.1"),
    ],
)
def test_only_the_proxy_says_who_calls_and_only_its_last_word_counts(calls: str, said: str, taken: str) -> None:
    site: Any = told_by_proxy(lambda environ, start: [environ["REMOTE_ADDR"].encode()], "127.0.0.1")
    assert site({"REMOTE_ADDR": calls, "HTTP_X_FORWARDED_FOR": said}, None) == [taken.encode()]
