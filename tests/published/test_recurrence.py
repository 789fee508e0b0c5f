"""When a free day comes back: against the examples of RFC 5545, 3.8.5.3, and against a printed calendar's months."""

from __future__ import annotations

from calendar import Calendar
from datetime import date, timedelta
from itertools import islice

import pytest

from partners.funding.recurrence import (
    LAST,
    Every,
    Rhythm,
    confirm_day,
    next_time,
    rhythm_of,
    rhythm_on,
    rule_of,
    times,
)


def days(text: str) -> list[date]:
    return [date.fromisoformat(day) for day in text.split()]


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        # RFC 5545, 3.8.5.3: "Monthly on the first Friday for 10 occurrences".
        (
            "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
            "1997-09-05 1997-10-03 1997-11-07 1997-12-05 1998-01-02 "
            "1998-02-06 1998-03-06 1998-04-03 1998-05-01 1998-06-05",
        ),
        # "Monthly on the second-to-last Monday of the month for 6 months".
        (
            "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
            "1997-09-22 1997-10-20 1997-11-17 1997-12-22 1998-01-19 1998-02-16",
        ),
        # "An example where the days generated makes a difference because of WKST": Monday, then Sunday.
        ("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "1997-08-05 1997-08-10 1997-08-19 1997-08-24"),
        ("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1997-08-05 1997-08-17 1997-08-19 1997-08-31"),
        # "An example where an invalid date (i.e., February 30) is ignored".
        ("FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "2007-01-15 2007-01-30 2007-02-15 2007-03-15 2007-03-30"),
        # "Every other week - forever", its first three; from memory, and counted again by hand.
        ("FREQ=WEEKLY;INTERVAL=2;COUNT=3;WKST=SU", "1997-09-02 1997-09-16 1997-09-30"),
    ],
)
def test_the_examples_of_the_standard(rule: str, expected: str) -> None:
    wanted = days(expected)
    assert list(times(rule, wanted[0])) == wanted
    assert next_time(rule, wanted[0], wanted[0]) == wanted[1]
    assert next_time(rule, wanted[0], wanted[-1]) is None


def month_days(year: int, month: int, weekday: int) -> list[date]:
    """The days of one weekday as a printed calendar shows them in its column."""
    return [day for day in Calendar().itermonthdates(year, month) if day.month == month and day.weekday() == weekday]


@pytest.mark.parametrize("which", [1, 2, 3, 4, LAST])
@pytest.mark.parametrize("weekday", range(7))
def test_days_of_a_week_fall_where_a_calendar_has_them(which: int, weekday: int) -> None:
    place = which if which < 0 else which - 1
    yearly = rule_of(Rhythm(Every.YEAR_WEEKDAY, which, weekday, 2))
    expected = [month_days(year, 2, weekday)[place] for year in range(2026, 2060)]
    assert list(islice(times(yearly, expected[0]), len(expected))) == expected
    monthly = rule_of(Rhythm(Every.MONTH_WEEKDAY, which, weekday))
    expected = [month_days(year, month, weekday)[place] for year in range(2026, 2030) for month in range(1, 13)]
    assert list(islice(times(monthly, expected[0]), len(expected))) == expected


def test_a_date_that_not_every_year_has_comes_only_where_it_is() -> None:
    """RFC 5545, 3.3.10: an invalid date that a rule generates is ignored."""
    leap = date(2028, 2, 29)
    rule = rule_of(rhythm_on(Every.YEAR_DATE, leap))
    assert list(islice(times(rule, leap), 3)) == [leap, date(2032, 2, 29), date(2036, 2, 29)]


@pytest.mark.parametrize("every", list(Every))
def test_a_rhythm_is_read_back_from_its_rule(every: Every) -> None:
    rhythm = rhythm_on(every, date(2027, 7, 15))
    rule = rule_of(rhythm)
    assert rhythm_of(rule) == rhythm
    assert next(times(rule, date(2027, 7, 15))) == date(2027, 7, 15)


@pytest.mark.parametrize("rule", ["FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", "FREQ=YEARLY;BYMONTH=x;BYDAY=3TH", "every year"])
def test_a_rule_that_says_more_or_nothing_is_no_rhythm_of_ours(rule: str) -> None:
    assert rhythm_of(rule) is None


def test_two_weeks_are_counted_from_the_first_time() -> None:
    first = date(2026, 10, 9)
    rule = rule_of(rhythm_on(Every.TWO_WEEKS, first))
    assert next_time(rule, first, date(2027, 3, 1)) == first + timedelta(days=14 * 11)
    assert next_time(rule, first, date(2027, 3, 1), until=date(2027, 3, 11)) is None


@pytest.mark.parametrize(
    ("every", "expected"),
    [
        (Every.YEAR_WEEKDAY, date(2027, 6, 17)),
        (Every.MONTH_WEEKDAY, date(2027, 6, 17)),
        (Every.ONCE, date(2027, 6, 17)),
        (Every.TWO_WEEKS, None),
    ],
)
def test_it_is_confirmed_four_weeks_before_unless_it_comes_sooner_again(every: Every, expected: date | None) -> None:
    day = date(2027, 7, 15)
    assert confirm_day(rule_of(rhythm_on(every, day)), day, day) == expected


@pytest.mark.parametrize("rule", ["every year", "FREQ=SELDOM", "RRULE:FREQ=DAILY\nEXDATE:20270101"])
def test_text_that_is_no_single_rule_is_refused(rule: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 -- dateutil's own words
        next_time(rule, date(2027, 1, 1))
