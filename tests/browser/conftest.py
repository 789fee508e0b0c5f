"""The machine's own browser, started the same way for every test."""

from __future__ import annotations

from typing import Any

import pytest

from tests import surroundings


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    quiet = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
    quiet += ["--disable-component-update", "--disable-sync", "--no-sandbox"]
    return {**browser_type_launch_args, "executable_path": surroundings.chromium(), "args": quiet}
