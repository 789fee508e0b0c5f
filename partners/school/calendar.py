"""School days: which days they are, counting forward and back over closures, several schools taken together."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from datetime import date
from itertools import accumulate

from partners.ground.plain import PlainError, gettext_noop

# Two years: longer than any summer or rebuilding. A calendar that says more was filled in by mistake.
REACH_DAYS = 731
LAST_ORDINAL = date.max.toordinal()


NO_WEEKDAY = gettext_noop("No weekday has school in this school calendar: choose its weekdays first.")
ALL_CLOSED = gettext_noop(
    "In this school calendar every day is closed for more than %(days)s days: look through its closed days."
)


class NoSchoolDay(PlainError):
    """No school day within reach of `day`; `forward` says which way was looked."""

    def __init__(self, day: date, forward: bool, weekdays: Collection[int]) -> None:
        self.day = day
        self.forward = forward
        super().__init__("no_school_day", ALL_CLOSED if weekdays else NO_WEEKDAY, days=REACH_DAYS)


@dataclass(frozen=True)
class SchoolCalendar:
    """The days with school: the `weekdays` (0 is Monday, 6 is Sunday) that are not in `closed`.

    Equal calendars compare and hash alike. `add` and `count` cost a few binary searches over the closed days, however
    far they reach. Raises ValueError for a weekday outside 0 to 6.
    """

    closed: Collection[date] = ()
    weekdays: Collection[int] = (0, 1, 2, 3, 4)
    _taught: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _taught_before: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _closed: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _number_at_closed: tuple[int, ...] = field(init=False, repr=False, compare=False)
    _long_closures: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        taught = tuple(sorted(set(self.weekdays)))
        if not set(taught) <= set(range(7)):
            raise ValueError("A weekday is a number from 0 (Monday) to 6 (Sunday).")
        ordinals = sorted({day.toordinal() for day in self.closed})
        self._keep("closed", frozenset(map(date.fromordinal, ordinals)))
        self._keep("weekdays", frozenset(taught))
        self._keep("_taught", taught)
        self._keep("_taught_before", tuple(accumulate((weekday in taught for weekday in range(7)), initial=0)))
        self._keep("_closed", tuple(o for o in ordinals if (o - 1) % 7 in self.weekdays))
        self._keep("_number_at_closed", tuple(self._number(o) for o in self._closed))
        runs = Counter(self._number_at_closed)
        long = sorted(number for number, run in runs.items() if run * 7 > (REACH_DAYS - 14) * len(taught))
        self._keep("_long_closures", tuple(long))

    def _keep(self, name: str, value: object) -> None:
        object.__setattr__(self, name, value)

    def is_school_day(self, day: date) -> bool:
        ordinal = day.toordinal()
        return (ordinal - 1) % 7 in self.weekdays and not self._is_closed(ordinal)

    def on_or_after(self, day: date) -> date:
        """`day` when it is a school day, else the next one. Raises NoSchoolDay."""
        return day if self.is_school_day(day) else self.add(day, 1)

    def on_or_before(self, day: date) -> date:
        """`day` when it is a school day, else the one before. Raises NoSchoolDay."""
        return day if self.is_school_day(day) else self.add(day, -1)

    def add(self, day: date, n: int) -> date:
        """The nth school day after `day`; for a negative n the nth before it; for 0 `day` itself, school day or not.

        `day` need not be a school day: one school day after a Saturday is Monday, one before it is Friday. For n >= 0,
        `count(day, add(day, n)) == n`. Raises NoSchoolDay when some school day on the way lies more than REACH_DAYS
        from the one before it (the first: from `day`), or outside the years that dates can have.
        """
        if n == 0:
            return day
        here = day.toordinal()
        passed = self._number(here) if n > 0 else self._number(here - 1) + 1
        wanted = passed + n
        if not self._taught or wanted < 1 or self._crosses_a_long_closure(here, passed, wanted):
            raise NoSchoolDay(day, n > 0, self.weekdays)
        found = self._find(wanted)
        if found > LAST_ORDINAL:
            raise NoSchoolDay(day, n > 0, self.weekdays)
        return date.fromordinal(found)

    def count(self, after: date, through: date) -> int:
        """How many school days d have after < d <= through: 0 when `through` is not later than `after`."""
        return max(0, self._number(through.toordinal()) - self._number(after.toordinal()))

    def _is_closed(self, ordinal: int) -> bool:
        place = bisect_left(self._closed, ordinal)
        return place < len(self._closed) and self._closed[place] == ordinal

    def _number(self, ordinal: int) -> int:
        """How many school days there are from ordinal 1, a Monday, through this one."""
        weeks, rest = divmod(ordinal, 7)
        return weeks * len(self._taught) + self._taught_before[rest] - bisect_right(self._closed, ordinal)

    def _find(self, number: int) -> int:
        """The ordinal of the school day with this number (1 is the first): undoes `_number`."""
        with_closed = number + bisect_left(self._number_at_closed, number)
        weeks, rest = divmod(with_closed - 1, len(self._taught))
        return weeks * 7 + self._taught[rest] + 1

    def _crosses_a_long_closure(self, here: int, passed: int, wanted: int) -> bool:
        low, high = min(passed, wanted), max(passed, wanted)
        for number in self._long_closures:
            if low <= number < high:
                start = self._find(number) if number else 0
                end = self._find(number + 1)
                wait = end - max(here, start) if wanted > passed else min(here, end) - start
                if wait > REACH_DAYS:
                    return True
        return False


def together(calendars: Iterable[SchoolCalendar]) -> SchoolCalendar:
    """One calendar for a teacher of several schools: a day is closed only when all of them are closed.

    Without any school it is the plain Monday to Friday.
    """
    schools = list(calendars)
    if not schools:
        return SchoolCalendar()
    maybe = {day for school in schools for day in school.closed}
    closed = {day for day in maybe if not any(school.is_school_day(day) for school in schools)}
    return SchoolCalendar(closed, {weekday for school in schools for weekday in school.weekdays})
