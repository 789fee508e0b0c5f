"""What the rooms of the money keep ready, worked out again."""

from __future__ import annotations

from collections.abc import Iterator

from partners.funding.occasion_facts import kept_ready
from partners.program.models import Program


def occasions(program: Program) -> Iterator[str]:
    """The next time of each free day, and the day to confirm it by."""
    for row in program.occasions.prefetch_related("days").iterator(chunk_size=500):
        told = [(one.day, one.told_on) for one in row.days.all()]
        for name, day in kept_ready(row, told).items():
            if getattr(row, name) != day:
                yield f"occasion {row.pk}: {name} is {getattr(row, name)}, should be {day}"


CHECKS = (occasions,)
