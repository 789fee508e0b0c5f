"""Every room that has something to tell of a partner."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from partners.directory import story as directory
from partners.directory.models import Partner
from partners.exchanges import story as exchanges
from partners.funding import story as funding
from partners.gifts import story as gifts
from partners.ground.story import StoryLine
from partners.letters import story as letters
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.promises import story as promises
from partners.school import story as projects
from partners.visits import story as visits

# Each room's lines, and what must be open to a guest for the pages behind them; None is open to nobody who only reads.
ROOMS: tuple[tuple[Callable[[Desk, Partner], list[StoryLine]], Opened | None], ...] = (
    (directory.lines, Opened.PARTNERS),
    (projects.lines, Opened.PROJECTS),
    (visits.lines, None),
    (promises.lines, Opened.GIFTS),
    (exchanges.lines, Opened.TRADES),
    (gifts.lines, Opened.GIFTS),
    (funding.lines, Opened.MONEY),
    (letters.lines, Opened.LETTERS),
)


def told(desk: Desk, partner: Partner) -> list[StoryLine]:
    """The whole story, the latest first: by day, and within a day by when it was written down.

    A line leads nowhere where the page behind it is not open to the person.
    """
    lines: list[StoryLine] = []
    for room, opened in ROOMS:
        found = room(desk, partner)
        leads = desk.writes or (opened is not None and desk.reads(opened))
        lines += found if leads else [replace(line, url="") for line in found]
    return sorted(lines, key=lambda line: (line.day, line.written_at), reverse=True)
