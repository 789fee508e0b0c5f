"""One list of what is due, over every room; at any size about as many queries as there are sources.

What has a day comes in order of date. Partners gone quiet have none, only the day of the last word: they come behind.
"""

from __future__ import annotations

import heapq
import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from operator import itemgetter
from typing import Any, NamedTuple

from partners.directory import due as directory
from partners.exchanges import due as exchanges
from partners.funding import due as funding
from partners.gifts import due as gifts
from partners.ground.due import DueLine, DueSource, Hand
from partners.helpers import due as helpers
from partners.letters import due as letters
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.promises import due as promises
from partners.school import due as school
from partners.school import project_due as projects
from partners.visits import due as visits

SOURCES: tuple[DueSource, ...] = (
    *school.SOURCES,
    *projects.SOURCES,
    *directory.SOURCES,
    *visits.SOURCES,
    *promises.SOURCES,
    *exchanges.SOURCES,
    *gifts.SOURCES,
    *helpers.SOURCES,
    *funding.SOURCES,
    *letters.SOURCES,
)
BY_SLUG = {source.slug: source for source in SOURCES}
BY_KEY = {source.slug.replace(".", "-"): source for source in SOURCES}
ORDER = {source.slug: place for place, source in enumerate(SOURCES)}
OF_MONEY = frozenset(source.slug for source in funding.SOURCES)
BUT_QUIET = tuple(source for source in SOURCES if source.hand is not Hand.QUIET)
RUNNING_OUT = tuple(source for source in BUT_QUIET if source.runs_out)
LASTING = tuple(source for source in BUT_QUIET if not source.runs_out)
BEHIND = frozenset(ORDER[source.slug] for source in SOURCES if source.hand is Hand.QUIET)
BEYOND = 2**62
# Where a source goes on of which the page before left nothing.
OVER = (date.max, BEYOND)
LAST = len(SOURCES)

Rank = tuple[bool, date, int, int]


@dataclass(frozen=True)
class Place:
    """Where a page of lines ended: date, source, id. Written into an address as text."""

    due: date
    order: int
    pk: int

    @classmethod
    def through(cls, day: date) -> Place:
        """Behind everything due on the day."""
        return cls(day, LAST, 0)

    @property
    def rank(self) -> Rank:
        """What places are sorted by."""
        return self.order in BEHIND, self.due, self.order, self.pk

    def __str__(self) -> str:
        return f"{self.due.isoformat()}.{self.order}.{self.pk}"

    @classmethod
    def read(cls, text: str) -> Place | None:
        """None for anything that is not a place."""
        found = re.fullmatch(r"(\d{4}-\d\d-\d\d)\.(\d{1,3})\.(\d{1,18})", text, re.ASCII)
        try:
            return cls(date.fromisoformat(found[1]), int(found[2]), int(found[3])) if found else None
        except ValueError:
            return None

    def behind(self, order: int) -> tuple[date, int] | None:
        """From where another source goes on so that no line comes twice and none is left out; None: from its start."""
        if order == self.order:
            return self.due, self.pk
        if (order in BEHIND) != (self.order in BEHIND):
            return OVER if self.order in BEHIND else None
        return self.due, BEYOND if order < self.order else 0


def place_of(line: DueLine) -> Place:
    """Where the line stands in the list."""
    return Place(line.due, ORDER[line.source], line.pk)


def place_of_key(key: str, due: date) -> Place | None:
    """The place of a line that is known by its key; None for a source that is no more."""
    slug, _dash, pk = key.rpartition("-")
    return Place(due, ORDER[BY_KEY[slug].slug], int(pk)) if slug in BY_KEY else None


class Placed(NamedTuple):
    """A row that is due, in its place; only those that are shown become lines."""

    rank: Rank
    source: DueSource
    row: tuple[Any, ...]

    def line(self, day: date) -> DueLine:
        return self.source.line(self.row, day)


def due_lines(
    desk: Desk,
    *,
    until: date,
    limit: int,
    after: Place | None = None,
    sources: Iterable[DueSource] = SOURCES,
) -> list[DueLine]:
    """The first `limit` lines due by `until`, behind the place where the page before ended.

    Partners gone quiet count whenever they were last heard of.
    """
    rows = due_rows(desk, until=until, limit=limit, after=after, sources=sources)
    return [one.line(desk.day) for one in rows]


def due_rows(
    desk: Desk,
    *,
    until: date,
    limit: int,
    after: Place | None = None,
    sources: Iterable[DueSource] = SOURCES,
) -> list[Placed]:
    """What `due_lines` makes its lines of; also to count how many there are, no further than `limit`."""
    (rows,) = due_in_stretches(desk, [Stretch(until, limit)], after=after, sources=sources)
    return rows


class Stretch(NamedTuple):
    """The first `limit` rows behind the stretch before and due by `until`.

    `if_room`: none where the stretch before is full, since nobody is shown them then.
    """

    until: date
    limit: int
    if_room: bool = False


def due_in_stretches(
    desk: Desk,
    stretches: Sequence[Stretch],
    *,
    after: Place | None = None,
    sources: Iterable[DueSource] = SOURCES,
    whole: dict[str, list[Placed]] | None = None,
) -> list[list[Placed]]:
    """The rows of each stretch, all out of one reading of every source.

    `whole` is filled with the rows of the first stretch, by their source, wherever these are all that it has there.
    """
    readings = [Reading(source, desk, stretches, after) for source in read_by(desk, sources)]
    pages: list[list[Placed]] = []
    begins, full = None, False
    for stretch in stretches:
        asked = [] if full and stretch.if_room else [reading.placed(begins, stretch) for reading in readings]
        if whole is not None and not pages:
            each = zip(readings, asked, strict=True)
            whole.update((reading.source.slug, rows) for reading, rows in each if len(rows) < stretch.limit)
        pages.append(list(islice(heapq.merge(*asked, key=itemgetter(0)), stretch.limit)))
        begins, full = (stretch.until, BEYOND), len(pages[-1]) == stretch.limit
    return pages


def read_by(desk: Desk, sources: Iterable[DueSource]) -> Iterator[DueSource]:
    """A guest to whom the money is not opened reads nothing of receipts and grants here either."""
    return (source for source in sources if source.slug not in OF_MONEY or desk.reads(Opened.MONEY))


class Reading:
    """One source's rows, read once for all stretches; asked again only for a stretch that the reading did not reach."""

    def __init__(self, source: DueSource, desk: Desk, stretches: Sequence[Stretch], after: Place | None) -> None:
        self.source, self.desk, self.order = source, desk, ORDER[source.slug]
        self.began = after.behind(self.order) if after else None
        if self.began == OVER:
            self.began, stretches = (stretches[0].until, BEYOND), stretches[1:]
        self.most = max((stretch.limit for stretch in stretches), default=0)
        until = stretches[-1].until if self.most else date.min
        self.read = source.found(desk, until=until, limit=self.most, after=self.began) if self.most else []

    def placed(self, begins: tuple[date, int] | None, stretch: Stretch) -> list[Placed]:
        behind = self.order in BEHIND
        rows = self.rows(begins or self.began, stretch.until, stretch.limit)
        return [Placed((behind, row[1], self.order, row[0]), self.source, row) for row in rows]

    def rows(self, begins: tuple[date, int] | None, until: date, limit: int) -> list[tuple[Any, ...]]:
        rows = [row for row in self.read if row[1] <= until and (begins is None or (row[1], row[0]) > begins)]
        reached = len(self.read) < self.most or not self.read or self.read[-1][1] > until
        if len(rows) < limit and not (reached and (self.began is None or begins is None or self.began <= begins)):
            rows = self.source.found(self.desk, until=until, limit=limit, after=begins)
        return rows[:limit]


def group_by_hand(lines: Iterable[DueLine], but: Collection[Hand] = ()) -> dict[Hand, list[DueLine]]:
    groups: dict[Hand, list[DueLine]] = {hand: [] for hand in Hand if hand not in but}
    for line in lines:
        groups[line.hand].append(line)
    return {hand: found for hand, found in groups.items() if found}
