"""No test lies where nobody runs it."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from partners.config.first_run import CHECKOUT
from tests.surroundings import COLLECTED

TESTS = CHECKOUT / "tests"


def files() -> list[Path]:
    """Every Python file of the tests but those that measure, which run when asked for."""
    return [path for path in sorted(TESTS.rglob("*.py")) if "bench" not in path.relative_to(TESTS).parts]


def holds_tests(path: Path) -> bool:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return any(isinstance(node, ast.FunctionDef) and node.name.startswith("test_") for node in ast.walk(tree))


def test_every_file_that_holds_tests_is_named_as_one():
    assert [path for path in files() if holds_tests(path) != path.name.startswith("test_")] == []


def test_every_test_file_is_collected(request: pytest.FixtureRequest):
    if [CHECKOUT / folder for folder in request.config.args] != [TESTS]:
        pytest.skip("only a part of the tests was asked for")
    assert request.config.stash[COLLECTED] == {path for path in files() if path.name.startswith("test_")}
