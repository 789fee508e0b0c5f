"""The plan by class: who makes how many, in which lessons, when each class starts at the latest, and what does not fit.

    wish = Wish(at_least=250, due=due, work_until=last_day_for_work(calendar, due, 2), minutes_per_item=20)
    made = plan(wish, classes)

Before work begins, items are shared by enrolment alone (the published method), and a class that cannot make its share
says by how many it falls short; offers say what would help. Once something is done or spoiled, what is left is shared
over the classes that still have room for it, so that a class whose lessons are over passes the rest on. To `keep` is
that a class does not pass on what it may have made in lessons in which nothing was counted yet: so it is after each
count, and only planning anew takes what is not counted for not made. A share set by hand stands; the others take up the
difference.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from partners.exchanges.apportion import Rule
from partners.exchanges.lessons import lessons_for
from partners.exchanges.offers import Offer, OfferKind, ShareChange, offers_for
from partners.exchanges.planned import PlannedClass, Wish, earliest_due, last_day_for_work
from partners.exchanges.shares import begun, share_out
from partners.ground.plain import PlainError

__all__ = [
    "Offer", "OfferKind", "Plan", "PlannedClass", "Row", "Rule", "ShareChange", "Why", "Wish", "earliest_due",
    "last_day_for_work", "plan",
]  # fmt: skip


class Why(StrEnum):
    """Why a class cannot make its share by the day."""

    NOBODY = "nobody"  # no student takes part
    NO_MINUTES = "no_minutes"  # the length of its lessons is not known
    NO_MEETING = "no_meeting"  # it does not meet any more by that day
    LIMIT = "limit"  # it meets often enough, but its lesson limit is used up before
    TOO_FEW = "too_few"  # it meets too few times by that day
    UNCOUNTED = "uncounted"  # it may be made: lessons are over in which nothing was counted


@dataclass(frozen=True)
class Row:
    """One class in the plan.

    `share` counts what is done, `left` does not. `lessons` are those needed for what is left; None where no number of
    lessons would do. `start` is the latest first meeting so that all of them fit through the last day for work; None
    where they do not fit or nothing is left. `meetings` are the days it works on: from `start` on, or, where they do
    not fit, all it can use. `room` is the most it can still make by then, `short_by` what is missing of its share.
    """

    key: int
    label: str
    school: str
    taking_part: int
    share: int
    by_hand: bool
    done: int
    spoiled: int
    left: int
    lessons: int | None
    start: date | None
    meetings: tuple[date, ...]
    room: int
    short_by: int
    why: Why | None

    @property
    def fits(self) -> bool:
        return not self.short_by

    @property
    def first_meeting(self) -> date | None:
        """When to begin, whether all of it fits or not; None where nothing is left or the class does not meet."""
        return self.meetings[0] if self.meetings else None


@dataclass(frozen=True)
class Plan:
    """The whole plan, its rows in the order in which the classes were given.

    `total` are all shares together: `wish.at_least`, unless `trouble` or room hinder it. `short_by` says how many of
    the promised will not be there on the day, and is exact: shares nobody has plus what classes cannot make of theirs.
    `possible` is the most that can be made by the day, not more than `wish.at_most`, when every class gives all the
    lessons it has. `re_shared` says that work has begun and what is left was shared over classes with room.
    `minimum_kept` False: the minimum per class had to be left out. `trouble` is a sentence that says what cannot be so
    and how to mend it (`gettext(trouble.sentence) % trouble.facts`); rows then show how far it goes all the same.
    """

    wish: Wish
    rows: tuple[Row, ...]
    total: int
    done: int
    spoiled: int
    left: int
    short_by: int
    possible: int
    rule: Rule
    re_shared: bool
    minimum_kept: bool
    trouble: PlainError | None
    offers: tuple[Offer, ...]

    @property
    def fits(self) -> bool:
        return not self.short_by and self.trouble is None

    @property
    def uncounted(self) -> int:
        """What is missing and may be made all the same, in lessons in which nothing was counted."""
        return sum(row.short_by for row in self.rows if row.why is Why.UNCOUNTED)

    @property
    def first_start(self) -> date | None:
        """The latest day on which the first class must begin."""
        return min((row.start for row in self.rows if row.start), default=None)


def plan(wish: Wish, classes: Sequence[PlannedClass], *, keep: bool = False) -> Plan:
    """The plan for these classes; never raises for what a teacher can enter: see `Plan.trouble` and `Plan.short_by`."""
    rooms = [one.room(wish.work_until, wish.minutes_per_item) for one in classes]
    re_shared = begun(classes)
    shared = share_out(wish, classes, rooms if re_shared else None, keep=keep and re_shared)
    rows = tuple(_row(wish, one, share, room) for one, share, room in zip(classes, shared.shares, rooms, strict=True))
    total, done = sum(shared.shares), sum(one.done for one in classes)
    short_by = max(0, wish.at_least - sum(row.share - row.short_by for row in rows))
    most = wish.at_least if wish.at_most is None else wish.at_most
    return Plan(
        wish=wish,
        rows=rows,
        total=total,
        done=done,
        spoiled=sum(one.spoiled for one in classes),
        left=sum(row.left for row in rows),
        short_by=short_by,
        possible=max(done, min(most, done + sum(rooms))),
        rule=shared.rule,
        re_shared=re_shared,
        minimum_kept=shared.minimum_kept,
        trouble=shared.trouble,
        offers=offers_for(wish, classes, shared.shares) if short_by and shared.trouble is None else (),
    )


def _row(wish: Wish, one: PlannedClass, share: int, room: int) -> Row:
    left = share - one.done
    short_by = max(0, left - room)
    lessons = lessons_for(left, one.taking_part, one.lesson_minutes, wish.minutes_per_item)
    available = one.lessons_by(wish.work_until)
    used = available if lessons is None else min(lessons, available)
    last = one.met_by(wish.work_until)
    meetings = tuple(one.meetings[last - used : last])
    return Row(
        key=one.key,
        label=one.label,
        school=one.school,
        taking_part=one.taking_part,
        share=share,
        by_hand=one.fixed is not None,
        done=one.done,
        spoiled=one.spoiled,
        left=left,
        lessons=lessons,
        start=meetings[0] if meetings and not short_by else None,
        meetings=meetings,
        room=room,
        short_by=short_by,
        why=_why(wish, one, lessons, short_by) if short_by else None,
    )


def _why(wish: Wish, one: PlannedClass, lessons: int | None, short_by: int) -> Why:
    if not one.taking_part:
        return Why.NOBODY
    if lessons is None:
        return Why.NO_MINUTES
    if one.uncounted and one.held(wish.minutes_per_item) - one.done >= short_by:
        return Why.UNCOUNTED
    met = one.met_by(wish.work_until)
    if not met:
        return Why.NO_MEETING
    return Why.LIMIT if met >= lessons else Why.TOO_FEW
