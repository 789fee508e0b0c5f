"""Every room that has something to tell of a partner."""

from __future__ import annotations

from collections.abc import Callable

from partners.directory import story as directory
from partners.directory.models import Partner
from partners.ground.story import StoryLine
from partners.program.desk import Desk

ROOMS: tuple[Callable[[Desk, Partner], list[StoryLine]], ...] = (directory.lines,)


def told(desk: Desk, partner: Partner) -> list[StoryLine]:
    """The whole story, the latest first: by day, and within a day by when it was written down."""
    lines = [line for lines in ROOMS for line in lines(desk, partner)]
    return sorted(lines, key=lambda line: (line.day, line.written_at), reverse=True)
