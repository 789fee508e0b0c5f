"""The stem that every server of these tests grows from."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.faults.harness import Server, Stem


@pytest.fixture(scope="session")
def grown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Stem]:
    stem = Stem(tmp_path_factory.mktemp("faults"))
    yield stem
    stem.end()


@pytest.fixture
def stem(grown: Stem) -> Iterator[Stem]:
    """With the book as it was made; no server is left behind."""
    grown.begin_anew()
    yield grown
    for server in Server.RUNNING[:]:
        server.end()
