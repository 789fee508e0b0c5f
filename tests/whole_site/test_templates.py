"""What templates may hold."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
INLINE = {
    "a style attribute": re.compile(r"<[^>]*\sstyle\s*=", re.IGNORECASE),
    "an on… attribute": re.compile(r"<[^>]*\son[a-z]+\s*=(?!=)", re.IGNORECASE),
    "htmx's own script": re.compile(r"\shx-on[:\-]", re.IGNORECASE),
    "a style element": re.compile(r"<style\b", re.IGNORECASE),
    "a script without a file": re.compile(r"<script\b(?![^>]*\bsrc=)", re.IGNORECASE),
    "an address that is script": re.compile(r"javascript:", re.IGNORECASE),
    "text that is not escaped": re.compile(r"\|\s*safe\b|\bautoescape\s+off\b|\|\s*safeseq\b"),
    "a dot that may begin a line": re.compile(r"(?<!&nbsp;)·"),
    "something from another site": re.compile(r"(?:src|href)=\"(?:https?:)?//", re.IGNORECASE),
}


# A help text is ours or Django's, never anybody's typing; those for a new password are a list.
# The title and the key of a plan hold dots that part nothing.
KNOWN = {
    ("text that is not escaped", "django/forms/_help.html"),
    ("a dot that may begin a line", "base.html"),
    ("a dot that may begin a line", "exchanges/_plan_grid.html"),
}


@pytest.mark.parametrize("fault", INLINE)
def test_no_template_holds(fault: str) -> None:
    names = [str(path.relative_to(ROOT / "templates")) for path in TEMPLATES if INLINE[fault].search(path.read_text())]
    assert [name for name in names if (fault, name) not in KNOWN] == []


@pytest.mark.parametrize(
    ("fault", "markup"),
    [
        ("a style attribute", '<p class="x" style="color: red">'),
        ("an on… attribute", '<button onclick="go()">'),
        ("a style element", "<style>p{}</style>"),
        ("a script without a file", "<script>go()</script>"),
        ("text that is not escaped", "{{ note|safe }}"),
        ("a dot that may begin a line", "{{ who }} · {{ what }}"),
        ("something from another site", '<script src="https://x.example.org/a.js">'),
    ],
)
def test_such_a_fault_would_be_seen(fault: str, markup: str) -> None:
    assert INLINE[fault].search(markup)


def test_a_script_from_a_file_is_no_fault() -> None:
    assert not INLINE["a script without a file"].search('<script src="{% static "partners/site.js" %}" defer>')


def test_partials_begin_with_an_underscore_and_are_used() -> None:
    texts = {path: path.read_text() for path in TEMPLATES}
    code = "\n".join(path.read_text() for room in ("partners", "outreach") for path in (ROOT / room).rglob("*.py"))
    everything = "\n".join(texts.values()) + code
    names = {str(path.relative_to(ROOT / "templates")) for path in TEMPLATES}
    found_by_name = {"403.html", "403_csrf.html", "404.html", "500.html"}
    of_django = {name for name in names if name.startswith("django/")}
    unused = {name for name in names - found_by_name - of_django if f'"{name}"' not in everything}
    assert unused == set()
