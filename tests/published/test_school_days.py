"""Dates against published figures; the source stands beside each."""

from calendar import monthrange
from datetime import date

import pytest

from partners.ground.months import add_months
from partners.school.calendar import SchoolCalendar
from partners.school.closures import days_between, federal_holidays


@pytest.mark.parametrize(
    "day",
    [
        date(2023, 1, 2),  # New Year's Day on a Sunday: OPM federal holidays 2023
        date(2023, 11, 10),  # Veterans Day on a Saturday: OPM federal holidays 2023
        date(2026, 7, 3),  # Independence Day on a Saturday: OPM federal holidays 2026
        date(2027, 6, 18),  # Juneteenth on a Saturday: 5 U.S.C. 6103(b), recomputed
        date(2027, 7, 5),  # Independence Day on a Sunday: Executive Order 11582, recomputed
        date(2027, 12, 24),  # Christmas Day on a Saturday: 5 U.S.C. 6103(b), recomputed
        date(2027, 12, 31),  # New Year's Day of 2028, a Saturday: 5 U.S.C. 6103(b), recomputed
    ],
)
def test_observed_federal_holidays(day):
    assert day in dict(federal_holidays([day.year]))


def by_hand(year: int) -> set[date]:
    """5 U.S.C. 6103(a) as it stands since 2021, written out: fixed days, and nth weekdays counted from the first."""
    fixed = {date(year, 1, 1), date(year, 6, 19), date(year, 7, 4), date(year, 11, 11), date(year, 12, 25)}
    nth = [(1, 0, 3), (2, 0, 3), (9, 0, 1), (10, 0, 2), (11, 3, 4)]
    moving = {[d for d in days_of(year, month) if d.weekday() == weekday][n - 1] for month, weekday, n in nth}
    return fixed | moving | {[d for d in days_of(year, 5) if d.weekday() == 0][-1]}


def days_of(year: int, month: int) -> list[date]:
    return [date(year, month, n) for n in range(1, monthrange(year, month)[1] + 1)]


@pytest.mark.parametrize("year", range(2022, 2041))
def test_federal_holidays_are_those_of_the_law(year):
    # 5 U.S.C. 6103(a); a Saturday is observed the Friday before (6103(b)), a Sunday the Monday after (E.O. 11582).
    lawful = by_hand(year) | by_hand(year + 1)
    moved = {date.fromordinal(d.toordinal() + {5: -1, 6: 1}[d.weekday()]) for d in lawful if d.weekday() > 4}
    assert {day for day, _name in federal_holidays([year])} == {d for d in lawful | moved if d.year == year}


def test_working_days_of_2026():
    # 261 weekdays less the 11 federal holidays of 2026 leave 250: OPM's list, counted.
    days = [day for day, _name in federal_holidays([2026])]
    last = date(2025, 12, 31)
    assert SchoolCalendar().count(last, date(2026, 12, 31)) == 261
    assert SchoolCalendar(days).count(last, date(2026, 12, 31)) == 250


def test_ten_working_days_after_12_june_2026():
    # Juneteenth falls on a Friday in between (5 U.S.C. 6103); recomputed.
    days = [day for day, _name in federal_holidays([2026])]
    assert SchoolCalendar(days).add(date(2026, 6, 12), 10) == date(2026, 6, 29)


def test_months_are_added_from_the_anchor_and_clamped():
    # RFC 5545 leaves out days that do not exist; adding months clamps instead, as python-dateutil does. Recomputed.
    anchor = date(2024, 1, 31)
    assert [add_months(anchor, n) for n in (1, 2)] == [date(2024, 2, 29), date(2024, 3, 31)]


def test_a_visit_is_followed_up_after_the_closed_day():
    # Worked example of the project's own rule: visit 6 October 2026, seven days on is 13 October, which is closed.
    assert SchoolCalendar([date(2026, 10, 13)]).on_or_after(date(2026, 10, 13)) == date(2026, 10, 14)


def test_thanks_for_a_gift_before_thanksgiving():
    # Worked example of the project's own rule: due five school days on, late ten school days on; 25-27 November closed.
    calendar = SchoolCalendar(days_between(date(2026, 11, 25), date(2026, 11, 27)))
    gift = date(2026, 11, 20)
    assert calendar.add(gift, 5) == date(2026, 12, 2)
    assert calendar.add(calendar.add(gift, 5), 1) == date(2026, 12, 3)
    assert calendar.add(calendar.add(gift, 10), 1) == date(2026, 12, 10)
