from datetime import date

from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.months import add_months, same_month_next_year

DAYS = st.dates(date(1900, 1, 1), date(2200, 12, 31))


@given(DAYS, st.integers(-600, 600))
def test_add_months_agrees_with_relativedelta(anchor, n):
    assert add_months(anchor, n) == anchor + relativedelta(months=n)


@given(DAYS)
def test_same_month_next_year_agrees_with_relativedelta(day):
    assert same_month_next_year(day) == day + relativedelta(years=1, day=1)
