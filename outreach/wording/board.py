"""What the lists for the office and the board have in common: how a year is named, how they begin, their type."""

from __future__ import annotations

from datetime import date
from typing import Protocol

from outreach.page import Block, Heading, Look, Paragraph
from outreach.wording.dates import short, spelled

LIST_SPILLED = Look(11, 0.8)
FIT_ONE_PAGE = 20
"""More rows than these never stand on one page, so larger type is not tried."""


def looks(rows: int) -> tuple[Look, ...]:
    return (LIST_SPILLED,) if rows > FIT_ONE_PAGE else (Look(12, 1.0), Look(11.5, 0.9), LIST_SPILLED)


class OfAYear(Protocol):
    @property
    def year(self) -> str: ...
    @property
    def first(self) -> date: ...
    @property
    def last(self) -> date: ...
    @property
    def day(self) -> date: ...
    @property
    def school(self) -> str: ...


def year_words(facts: OfAYear) -> str:
    return f"fiscal year {facts.year}"


def day_of_year(day: date) -> str:
    r"""A day with its year, that is not broken over two lines.

    >>> day_of_year(date(2026, 10, 6)).split(" ")
    ['Oct\xa06,\xa02026']
    """
    return f"{short(day, 'en')}, {day.year}".replace(" ", "\N{NO-BREAK SPACE}")


def opening(title: str, facts: OfAYear) -> tuple[Block, ...]:
    """The heading, then for whom and from when to when: a year that still runs ends on the day of printing."""
    last = min(facts.last, facts.day)
    time = f"{spelled(facts.first, 'en')} to {spelled(max(last, facts.first), 'en')}"
    return (
        Heading(title, before=0, size=18),
        Paragraph(f"{facts.school or 'All schools of the program'}, {time}", before=0.2),
    )
