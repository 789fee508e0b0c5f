"""The locks: what the site and its tests are built from."""

from __future__ import annotations

import re

import pytest

from partners.config.first_run import LOCKS, SITE_LOCK, TESTS_LOCK


def packages(lock: str) -> dict[str, str]:
    """Each package with its version, marker and hashes, as one text."""
    text = (LOCKS / lock).read_text(encoding="utf-8").replace("\\\n", " ")
    lines = (line for line in text.splitlines() if line.strip())
    return {line.split("==")[0]: " ".join(line.split()) for line in lines}


def without_marker(line: str | None) -> str:
    return re.sub(r" ;.*?(?= --hash)", "", line or "missing")


def test_the_tests_lock_holds_the_site_lock_whole():
    site, tests = packages(SITE_LOCK), packages(TESTS_LOCK)
    for name, line in site.items():
        # The tests may want a package on more systems than the site does, never another version.
        assert without_marker(tests.get(name)) == without_marker(line)


@pytest.mark.parametrize("lock", [SITE_LOCK, TESTS_LOCK])
def test_every_package_has_a_version_and_a_hash_and_no_address(lock):
    lines = packages(lock).values()
    pinned = re.compile(r"[a-z0-9.-]+==[^ ]+ (; .*?)?(--hash=sha256:[0-9a-f]{64} ?)+")
    assert [line for line in lines if not pinned.fullmatch(line)] == []
    assert len(lines) > 20
