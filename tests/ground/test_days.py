"""Days in words."""

from __future__ import annotations

from datetime import date

from django.utils import translation
from django.utils.formats import date_format

from partners.ground.days import in_margin, spelled

TUESDAY = date(2026, 10, 6)


def test_a_day_is_spelled_as_django_does_in_each_language() -> None:
    for language in ("en-us", "es"):
        with translation.override(language):
            assert spelled(TUESDAY, "MONTH_DAY_FORMAT") == date_format(TUESDAY, "MONTH_DAY_FORMAT")


def test_the_margin_names_weekday_and_day() -> None:
    assert in_margin(TUESDAY, TUESDAY) == (
        '<time datetime="2026-10-06"><span class="weekday">Tue<span class="comma">,</span></span> Oct 6</time>'
    )


def test_the_margin_names_another_year() -> None:
    assert "Oct 6, 2026" in in_margin(TUESDAY, date(2027, 1, 4))
