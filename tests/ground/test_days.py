"""Days in words."""

from __future__ import annotations

from datetime import date

from django.utils import translation
from django.utils.formats import date_format
from django.utils.html import strip_tags

from partners.ground.days import in_margin, spelled

TUESDAY = date(2026, 10, 6)


def test_a_day_is_spelled_as_django_does_in_each_language() -> None:
    for language in ("en-us", "es"):
        with translation.override(language):
            assert spelled(TUESDAY, "MONTH_DAY_FORMAT") == date_format(TUESDAY, "MONTH_DAY_FORMAT")


def read(day: date, today: date) -> str:
    return strip_tags(in_margin(day, today))


def test_the_margin_names_weekday_and_day() -> None:
    assert read(TUESDAY, TUESDAY) == "Tue, Oct 6"
    assert '<time datetime="2026-10-06">' in in_margin(TUESDAY, TUESDAY)


def test_the_margin_names_another_year_and_no_weekday_that_is_over() -> None:
    assert read(TUESDAY, date(2027, 1, 4)) == "Oct 6, 2026"
    assert read(date(2027, 1, 4), TUESDAY) == "Mon, Jan 4, 2027"
