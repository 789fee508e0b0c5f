"""No pattern of the code takes more than about twice as long for a text twice as long (ReDoS)."""

from __future__ import annotations

import re
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from statistics import median
from typing import Any

import pytest

from tests.attack.patterns import attacks, every_pattern, written_inside

# Seconds of the processor below which nothing is compared: whatever takes less at this length is quick enough.
WORTH, LONGEST, MOST_TIMES, DOUBTFUL, AGAIN = 0.01, 8_000, 3.2, 2.6, 5
# Of our own words, or of what was typed behind `re.escape`, without anything that comes again and again.
BY_HAND = [
    "outreach.gathering.letter_mail.whole_names",
    "partners.directory.addresses._last_line_pattern",
    "partners.gifts.letter_patterns._any",
    "partners.gifts.letter_text.names_day",
    "partners.ground.traces._patterns",
    "partners.helpers.job_cards._names",
    "partners.program.devices.likely_name",
    "partners.school.class_cells.read_days",
]


class TooSlow(Exception):
    pass


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """The engine of patterns looks for signals, so that also a match that would never end is ended."""

    def ended(*_args: Any) -> None:
        raise TooSlow

    before = signal.signal(signal.SIGPROF, ended)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def taken(pattern: re.Pattern[Any], way: str, text: Any) -> float:
    """Seconds of the processor; the least of three where it is worth comparing."""
    found = []
    for _time in range(3):
        began = time.thread_time()
        if way in ("sub", "subn"):
            getattr(pattern, way)(text[:0], text)
        elif way == "finditer":
            list(pattern.finditer(text))
        else:
            getattr(pattern, way)(text)
        found.append(time.thread_time() - began)
        if found[-1] < WORTH:
            break
    return min(found)


def growth(pattern: re.Pattern[Any], way: str, attack: tuple[str, str, str]) -> float:
    """How many times as long a text twice as long takes; 0 where even the longest is quick."""
    before, again, end = attack
    size, last = 12, 0.0
    while size <= LONGEST:
        text: Any = before + again * max(1, size // len(again)) + end
        took = taken(pattern, way, text.encode("latin-1", "replace") if isinstance(pattern.pattern, bytes) else text)
        if last > WORTH / MOST_TIMES and took > WORTH:
            return took / last
        size, last = size * 2, took
    return 0.0


def slow(pattern: re.Pattern[Any], ways: set[str]) -> Iterator[Any]:
    for attack in attacks(pattern):
        for way in sorted(ways):
            grows = measured(pattern, way, attack)
            if grows > DOUBTFUL:
                # What other work on the machine added is not there again; what the pattern costs is.
                grows = median(measured(pattern, way, attack) for _again in range(AGAIN))
            if grows > MOST_TIMES:
                yield way, attack, grows


def measured(pattern: re.Pattern[Any], way: str, attack: tuple[str, str, str]) -> float:
    try:
        with at_most(0.5):
            return growth(pattern, way, attack)
    except TooSlow:
        return float("inf")


@pytest.mark.nightly  # Times are compared here, and other work on the machine can bend them.
@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no timer that counts the processor's time")
def test_every_pattern_takes_about_twice_as_long_for_twice_the_text() -> None:
    patterns = every_pattern()
    assert len(patterns) > 90
    assert {
        place: found for place, (pattern, ways) in patterns.items() if (found := next(slow(pattern, ways), None))
    } == {}


@pytest.mark.nightly
@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no timer that counts the processor's time")
@pytest.mark.parametrize("bad", [r"(a+)+$", r"(\w|\w\w)+!", r"\s+$", r"(.*,){12}x"])
def test_a_slow_pattern_would_be_found(bad: str) -> None:
    """Patterns that are known to be slow (OWASP, Regular expression Denial of Service; from memory)."""
    assert next(slow(re.compile(bad), {"search"}), None)


def test_patterns_that_are_put_together_while_the_site_runs_are_known() -> None:
    assert written_inside() == BY_HAND
