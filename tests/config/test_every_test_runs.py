"""No test lies where nobody runs it."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

from partners.config.first_run import CHECKOUT

TESTS = CHECKOUT / "tests"


def files() -> list[Path]:
    """Every Python file of the tests but those that measure, which run when asked for."""
    return [path for path in sorted(TESTS.rglob("*.py")) if "bench" not in path.relative_to(TESTS).parts]


def holds_tests(path: Path) -> bool:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return any(isinstance(node, ast.FunctionDef) and node.name.startswith("test_") for node in ast.walk(tree))


def test_every_file_that_holds_tests_is_named_as_one():
    assert [path for path in files() if holds_tests(path) != path.name.startswith("test_")] == []


def test_every_test_file_is_collected():
    collect = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-m", "", "-p", "no:cacheprovider"]
    told = subprocess.run(
        collect, cwd=CHECKOUT, env=os.environ, capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False
    )
    collected = {CHECKOUT / line.split("::")[0] for line in told.stdout.splitlines() if "::" in line}
    assert collected == {path for path in files() if path.name.startswith("test_")}, told.stdout[-2000:]
