"""What would make a plan fit: fewer classes with more each, a later date, a smaller number; each worked out in full."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

from partners.exchanges.planned import PlannedClass, Wish
from partners.exchanges.shares import begun, share_out


class OfferKind(StrEnum):
    FEWER = "fewer"
    LATER = "later"
    SMALLER = "smaller"


@dataclass(frozen=True)
class ShareChange:
    """A class whose share is another one under the offer; `after` below `before`: it cannot make its share."""

    key: int
    label: str
    school: str
    before: int
    after: int


@dataclass(frozen=True)
class Offer:
    """A plan that fits, once it is taken: promise `at_least`, work through `work_until`, set the shares `by_hand`.

    FEWER: classes that cannot make their share make what they can (0 where that is nothing), the others take the rest.
    LATER: the earliest last day for work by which all fits; `earliest_due` says what day can be promised then.
    SMALLER: the most that fits by the day.
    """

    kind: OfferKind
    at_least: int
    work_until: date
    by_hand: Mapping[int, int] = field(default_factory=dict)
    changes: tuple[ShareChange, ...] = ()

    @property
    def cannot(self) -> tuple[ShareChange, ...]:
        """Classes that would make fewer."""
        return tuple(change for change in self.changes if change.after < change.before)

    @property
    def take_over(self) -> tuple[ShareChange, ...]:
        """Classes that would make more."""
        return tuple(change for change in self.changes if change.after > change.before)


def taken(offer: Offer, wish: Wish, classes: Sequence[PlannedClass]) -> tuple[Wish, list[PlannedClass]]:
    """The wish and the classes once the offer is taken; the promised day moves at least as far as the work does."""
    due, at_most = max(wish.due, offer.work_until), wish.at_most
    if at_most is not None and offer.at_least != wish.at_least:
        at_most = None
    changed = replace(wish, at_least=offer.at_least, at_most=at_most, work_until=offer.work_until, due=due)
    return changed, [replace(one, fixed=offer.by_hand.get(one.key, one.fixed)) for one in classes]


def offers_for(wish: Wish, classes: Sequence[PlannedClass], shares: Sequence[int]) -> tuple[Offer, ...]:
    """The offers that help, in the order fewer classes, later date, smaller number; `shares` are the plan's now."""
    found = (_fewer(wish, classes), _later(wish, classes), _smaller(wish, classes, shares))
    return tuple(_with_changes(offer, wish, classes, shares) for offer in found if offer is not None)


def missing(wish: Wish, classes: Sequence[PlannedClass]) -> int | None:
    """How many would not be there on the day; None where they cannot be shared so at all."""
    rooms = _rooms(wish, classes)
    shared = share_out(wish, classes, rooms if begun(classes) else None)
    if shared.trouble is not None:
        return None
    made = sum(min(share, one.done + room) for share, one, room in zip(shared.shares, classes, rooms, strict=True))
    return max(0, wish.at_least - made)


def _fewer(wish: Wish, classes: Sequence[PlannedClass]) -> Offer | None:
    rooms = _rooms(wish, classes)
    within = [_by_hand_within(one, room) for one, room in zip(classes, rooms, strict=True)]
    shared = share_out(wish, within, rooms)
    if shared.trouble is not None or sum(shared.shares) != wish.at_least:
        return None
    stands_by_itself = begun(classes)
    by_hand = {
        one.key: share
        for one, share, held in zip(classes, shared.shares, shared.held, strict=True)
        if held and one.fixed != share and (one.fixed is not None or (one.taking_part and not stands_by_itself))
    }
    return Offer(OfferKind.FEWER, wish.at_least, wish.work_until, by_hand) if by_hand else None


def _later(wish: Wish, classes: Sequence[PlannedClass]) -> Offer | None:
    """More lessons never make less, so that the earliest day is found by halving."""
    days = sorted({day for one in classes for day in one.meetings if day > wish.work_until})
    if not days or missing(_until(wish, days[-1]), classes) != 0:
        return None
    low, high = 0, len(days) - 1
    while low < high:
        middle = (low + high) // 2
        if missing(_until(wish, days[middle]), classes) == 0:
            high = middle
        else:
            low = middle + 1
    return Offer(OfferKind.LATER, wish.at_least, days[low])


def _smaller(wish: Wish, classes: Sequence[PlannedClass], shares: Sequence[int]) -> Offer | None:
    """What classes make of their shares; where all together have no room for the promised number, all they have."""
    rooms = _rooms(wish, classes)
    highest = [_highest(one, room) for one, room in zip(classes, rooms, strict=True)]
    if sum(highest) < wish.at_least:
        by_hand = {one.key: most for one, most in zip(classes, highest, strict=True) if one.taking_part or one.fixed}
        total = sum(highest)
    else:
        cannot = [(one, most) for one, most, share in zip(classes, highest, shares, strict=True) if share > most]
        by_hand = {one.key: most for one, most in cannot}
        total = sum(min(share, most) for share, most in zip(shares, highest, strict=True))
    # The others' shares, worked out anew, may be rounded another way and then not fit by one or two.
    for at_least in range(total, 0, -1):
        offer = Offer(OfferKind.SMALLER, at_least, wish.work_until, by_hand)
        short_by = missing(*taken(offer, wish, classes))
        if short_by is None:
            break
        if short_by == 0:
            return offer
    return None


def _rooms(wish: Wish, classes: Sequence[PlannedClass]) -> list[int]:
    return [one.room(wish.work_until, wish.minutes_per_item) for one in classes]


def _highest(one: PlannedClass, room: int) -> int:
    """A share set by hand is not raised; what is done stays done."""
    return one.done + room if one.fixed is None else max(one.done, min(one.fixed, one.done + room))


def _by_hand_within(one: PlannedClass, room: int) -> PlannedClass:
    return one if one.fixed is None else replace(one, fixed=_highest(one, room))


def _until(wish: Wish, day: date) -> Wish:
    return replace(wish, work_until=day, due=max(wish.due, day))


def _with_changes(offer: Offer, wish: Wish, classes: Sequence[PlannedClass], shares: Sequence[int]) -> Offer:
    new_wish, new_classes = taken(offer, wish, classes)
    rooms = _rooms(new_wish, new_classes) if begun(new_classes) else None
    after = share_out(new_wish, new_classes, rooms).shares
    changes = tuple(
        ShareChange(one.key, one.label, one.school, before, now)
        for one, before, now in zip(classes, shares, after, strict=True)
        if before != now
    )
    return replace(offer, changes=changes)
