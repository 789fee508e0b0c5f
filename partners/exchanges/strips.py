"""A strip of weeks for each class: in which it works, in which it could, and in which it did."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

# More weeks than that are no longer taken in at a glance; the earliest are left out.
MOST_WEEKS = 14
WEEK = timedelta(weeks=1)


@dataclass(frozen=True)
class WeekCell:
    """What a class does in one week: "made" something, "works", is "free" (meets, and need not), or "none".

    `lessons` counts its lessons for this in that week.
    """

    kind: str
    lessons: int = 0

    @property
    def sign(self) -> str:
        return {"made": "✓", "works": str(self.lessons), "free": "○", "none": "·"}[self.kind]


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def weeks_between(first: date, last: date) -> list[date]:
    """The Mondays of the weeks from the one of `first` through the one of `last`, only the last MOST_WEEKS of them."""
    begin, end = monday(first), monday(last)
    return [end - WEEK * back for back in range(min((end - begin) // WEEK, MOST_WEEKS - 1), -1, -1)]


def strip(
    weeks: Sequence[date], works: Collection[date], meets: Collection[date], made: Collection[date]
) -> list[WeekCell]:
    """One cell for each week; lessons to come count before those that were."""
    working, free, behind = Counter(map(monday, works)), set(map(monday, meets)), set(map(monday, made))
    return [
        WeekCell("works", working[week])
        if working[week]
        else WeekCell("made" if week in behind else "free" if week in free else "none")
        for week in weeks
    ]
