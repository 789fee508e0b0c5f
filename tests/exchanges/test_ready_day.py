"""On which days our side of a trade can be due."""

from datetime import date, timedelta

import pytest

from partners.exchanges.ready_day import NoReadyDay, check_ready
from partners.school.calendar import SchoolCalendar

TODAY = date(2027, 5, 4)
SUMMER = {date(2027, 6, 19) + timedelta(days=n) for n in range(72)}
CALENDAR = SchoolCalendar(SUMMER)


@pytest.mark.parametrize(
    ("due", "ends", "code", "named"),
    [
        (date(2027, 5, 3), [], "past", None),
        (date(2027, 5, 8), [], "closed", date(2027, 5, 7)),
        (date(2027, 7, 14), [], "closed", date(2027, 6, 18)),
        (date(2027, 9, 14), [date(2027, 6, 18)], "beyond", date(2027, 6, 18)),
    ],
)
def test_a_day_on_which_nothing_can_be_handed_over(due, ends, code, named):
    with pytest.raises(NoReadyDay) as refused:
        check_ready(due, TODAY, CALENDAR, ends)
    assert (refused.value.code, refused.value.facts.get("day")) == (code, named)


@pytest.mark.parametrize(("due", "ends"), [(TODAY, []), (date(2027, 6, 18), [date(2026, 6, 18), date(2027, 6, 18)])])
def test_today_and_the_last_school_day_ahead_will_do_and_the_day_after_will_not(due, ends):
    refused = []
    for day in (due, due + timedelta(days=60)):
        try:
            check_ready(day, TODAY, CALENDAR, ends)
        except NoReadyDay:
            refused.append(day)
    assert refused == [due + timedelta(days=60)]
