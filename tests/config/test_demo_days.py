"""The demo book can be loaded on whatever day somebody first looks."""

from __future__ import annotations

from datetime import date

import pytest

from partners.agenda.check_book import differences
from partners.config.demo_book import load_demo
from partners.program.models import Program

OTHER_DAYS = [
    pytest.param(day, marks=pytest.mark.nightly) for day in (date(2026, 7, 4), date(2027, 6, 10), date(2027, 1, 1))
]


@pytest.mark.parametrize("day", [date(2028, 2, 29), *OTHER_DAYS])
def test_it_loads_on_any_day(db: object, day: date) -> None:
    load_demo(day)
    assert differences(Program.objects.get()) == []
