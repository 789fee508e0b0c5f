"""What an ill-wisher types: markup, formulas, line ends, directions, odd numbers; and how often it is tried."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

MARK = "<x7q>"
# How often a run of `-m nightly` tries what an ordinary run tries once.
NIGHTLY = 50
NASTY = (
    MARK, f'"{MARK}', f"'{MARK}", f"</textarea>{MARK}", f"</title>{MARK}", f"--{MARK}", "&lt;x7q&gt;",
    "&#60;x7q&#62;", "javascript:alert(1)", '"onmouseover="x', "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "'=1",
    "=cmd|' /C calc'!A0", "a\r\nBcc: all@example.org", "\r\n\r\n<x7q>", "a\nEND:VCARD", "a\r\nEND:VEVENT", "\x00",
    "a\x00b", "\x1b[2J", "\x0b\x0c", "\u2028", "\u202e", "\ufeff", "\u200b", "e\u0301\u0301", "ﷺ", "İı", "ß", "🥐",
    "\U0010ffff", "{{ 7|add:7 }}", "{% include 'x' %}", "%(name)s", "%s %n", "{partner}", "{0.__class__}", "$(id)",
    "`id`", "' OR 1=1 --", '";--', "\\", "%00", "%0d%0a", "../../etc/passwd", "..\\..\\x", "//elsewhere.example.org",
    "http://[", "nonsense", "agenda:today", "0", "-0", "00", "1e309", "NaN", "Infinity", "-inf", "1_000", "٣", "½",
    "²", "9" * 20, "9" * 400, "-" + "9" * 20, str(2**31), str(2**63 - 1), str(2**63), "0.005", "1,000.00", "$",
    "0x10", "2026-02-30", "9999-12-31", "0001-01-01", "0000-00-00", "10000-01-01", "31/31/2026", "25:61", "24:00",
    "-1:00", "1" * 5000, "a" * 3000, "a " * 1500, "((((", "[", "*", "", " ", "\xa0", "None", "true", "on", "[]",
    "null",
)  # fmt: skip
# What a browser can send: no halves of characters, for the words of a form arrive as UTF-8.
SIGNS = st.characters(exclude_categories=["Cs"])


class Hand:
    """Types what comes to its mind: a hostile text, one of those drawn for it, or what fits. Quick, unlike drawing."""

    def __init__(self, seed: int, words: Sequence[str]) -> None:
        self._chance = Random(seed)
        self._words = [*words, ""]

    def one_of(self, choices: Sequence[Any]) -> Any:
        return choices[int(self._chance.random() * len(choices))]

    def some(self, choices: Sequence[Any], most: int) -> list[Any]:
        return [self.one_of(choices) for _time in range(int(self._chance.random() * (most + 1)) if choices else 0)]

    def typed(self, fitting: Sequence[str] = ()) -> str:
        kind = int(self._chance.random() * 8)
        if fitting and kind < 4:
            return str(self.one_of(fitting))
        if kind == 4:
            return str(self.one_of(self._words))
        return str(self.one_of(NASTY) + self.one_of(NASTY) if kind == 5 else self.one_of(NASTY))


hands = st.builds(Hand, st.integers(0, 2**48), st.lists(st.text(SIGNS, max_size=30), max_size=2))
often = pytest.mark.parametrize("times", [1, pytest.param(NIGHTLY, marks=pytest.mark.nightly)], ids=["few", "many"])


def try_many(examples: int, times: int, attempt: Callable[..., None], **drawn: Any) -> None:
    """Calls `attempt` that often with what is drawn for its arguments. An ordinary run draws the same every time."""
    calm = settings(
        max_examples=examples * times,
        derandomize=times == 1,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
        print_blob=True,
    )
    calm(given(**drawn)(attempt))()


def assert_no_echo(text: str) -> None:
    """Fails where what was typed stands in the page as markup."""
    assert MARK not in text, text[max(0, text.index(MARK) - 200) :][:400]
