"""What a plan by class is made from: what was promised, and the classes that make it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from partners.exchanges.lessons import items_in
from partners.ground.plain import PlainError, gettext_noop
from partners.school.calendar import SchoolCalendar

RANGE_UPSIDE_DOWN = gettext_noop("The larger number of the range is smaller than the first: %(least)s to %(most)s.")
DAYS_UPSIDE_DOWN = gettext_noop("The last day for work comes after the day it is promised for.")
NO_MINUTES = gettext_noop("Say how many minutes one item takes: at least one.")
BELOW_ZERO = gettext_noop("A number of items cannot be below zero.")


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What we promised. The plan aims at `at_least`; up to `at_most` (None: no more) it only says what is possible.

    `due` is the promised day, `work_until` the last day on which a lesson still counts, both included; the days between
    are for drying and packing (see `last_day_for_work`). `minutes_per_item` is a child's time for one item. `minimum`
    items go to each class that takes part. Raises PlainError for numbers or days that cannot be so.
    """

    at_least: int
    due: date
    work_until: date
    minutes_per_item: int
    at_most: int | None = None
    minimum: int = 0

    def __post_init__(self) -> None:
        if min(self.at_least, self.minimum) < 0:
            raise PlainError("below_zero", BELOW_ZERO)
        if self.at_most is not None and self.at_most < self.at_least:
            raise PlainError("range", RANGE_UPSIDE_DOWN, least=self.at_least, most=self.at_most)
        if self.work_until > self.due:
            raise PlainError("days", DAYS_UPSIDE_DOWN)
        if self.minutes_per_item < 1:
            raise PlainError("minutes", NO_MINUTES)


@dataclass(frozen=True, kw_only=True)
class PlannedClass:
    """A class as numbers. `key` is its row's number and comes back in the plan.

    `meetings` are the days on which it really meets, ascending, from the first on which it can work (today, or the day
    the plain items are there). They may go on past the last day for work: from what comes after, a later date is
    offered. `lesson_minutes` 0 is a length not known. `lessons_left` is the lesson limit of the year less what the
    class has used of it; None is no limit. `fixed` is a share set by hand. `done` and `spoiled` are the items made so
    far; spoiled ones do not count as done. `share` is what it was to make so far, `uncounted` the lessons that are over
    and in which nothing was counted yet; None where nobody knows when or how long it meets.
    """

    key: int
    label: str
    school: str
    students: int
    lesson_minutes: int
    meetings: Sequence[date]
    not_taking_part: int = 0
    lessons_left: int | None = None
    fixed: int | None = None
    done: int = 0
    spoiled: int = 0
    share: int = 0
    uncounted: int | None = 0

    @property
    def taking_part(self) -> int:
        return max(0, self.students - self.not_taking_part)

    def met_by(self, day: date) -> int:
        """How many of its meetings there are through `day`."""
        return bisect_right(self.meetings, day)

    def lessons_by(self, day: date) -> int:
        """How many lessons the class can give to it through `day`, within its limit."""
        met = self.met_by(day)
        return met if self.lessons_left is None else max(0, min(met, self.lessons_left))

    def held(self, minutes_per_item: int) -> int:
        """What it has done, and what of its share it may have done although nobody has counted it yet."""
        if self.uncounted is None:
            return max(self.done, self.share)
        made = items_in(self.uncounted, self.taking_part, self.lesson_minutes, minutes_per_item)
        return max(self.done, min(self.share, self.done + made))

    def room(self, day: date, minutes_per_item: int) -> int:
        """The most items that it finishes from now on through `day`, besides those done."""
        return items_in(self.lessons_by(day), self.taking_part, self.lesson_minutes, minutes_per_item)


def last_day_for_work(calendar: SchoolCalendar, due: date, drying_days: int) -> date:
    """The last day for work: so many school days before `due`, for drying, packing and the way. Raises NoSchoolDay."""
    return calendar.add(due, -drying_days)


def earliest_due(calendar: SchoolCalendar, last_work: date, drying_days: int) -> date:
    """The first day that can be promised when work ends on `last_work`, a school day. Raises NoSchoolDay."""
    return calendar.add(last_work, drying_days)
