"""The strip of weeks: what a class does in each week, in a sign of its own."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from partners.exchanges.strips import MOST_WEEKS, strip, weeks_between

MONDAY = date(2026, 10, 5)
DAYS = st.lists(st.dates(MONDAY, MONDAY + timedelta(days=69)), max_size=12, unique=True)


def test_weeks_run_from_the_first_days_monday_to_the_lasts_and_only_the_last_are_kept() -> None:
    assert weeks_between(date(2026, 10, 8), date(2026, 10, 19)) == [MONDAY, date(2026, 10, 12), date(2026, 10, 19)]
    assert weeks_between(MONDAY, MONDAY) == [MONDAY]
    many = weeks_between(MONDAY, MONDAY + timedelta(weeks=30))
    assert (len(many), many[-1]) == (MOST_WEEKS, MONDAY + timedelta(weeks=30))


def test_each_week_has_its_own_sign() -> None:
    weeks = weeks_between(MONDAY, MONDAY + timedelta(weeks=3))
    works = [weeks[2], weeks[2] + timedelta(days=3)]
    cells = strip(weeks, works, [weeks[1], *works], [weeks[0]])
    assert [(cell.kind, cell.sign) for cell in cells] == [("made", "✓"), ("free", "○"), ("works", "2"), ("none", "·")]


@settings(max_examples=40)
@given(DAYS, DAYS, DAYS)
def test_every_lesson_is_counted_in_its_week(works: list[date], meets: list[date], made: list[date]) -> None:
    """Against the calendar week of ISO 8601, asked day by day."""
    weeks = weeks_between(MONDAY, MONDAY + timedelta(days=69))
    for week, cell in zip(weeks, strip(weeks, works, meets, made), strict=True):
        same = [day for day in works if day.isocalendar()[:2] == week.isocalendar()[:2]]
        assert cell.lessons == len(same)
        assert (cell.kind == "works") == bool(same)
