"""The program's years: a school's or district's fiscal year, named by the calendar years it lies in."""

from __future__ import annotations

from datetime import date, timedelta


def year_of(day: date, begins: int) -> int:
    """The calendar year in which the program's year around `day` began; `begins` is a month, 1 to 12."""
    return day.year if day.month >= begins else day.year - 1


def first_day(year: int, begins: int) -> date:
    return date(year, begins, 1)


def last_day(year: int, begins: int) -> date:
    return date(year + 1, begins, 1) - timedelta(days=1)


def name_of(year: int, begins: int) -> str:
    """`2026–27`; a year that begins in January is just `2026`."""
    return str(year) if begins == 1 else f"{year}–{(year + 1) % 100:02d}"
