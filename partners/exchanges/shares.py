"""Who makes how many: shares by enrolment, around what is set by hand, what is done, and what classes have room for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from partners.exchanges.apportion import MINIMUM_TOO_LARGE, NO_STUDENTS, CannotShare, Rule, share_within
from partners.exchanges.planned import PlannedClass, Wish
from partners.ground.plain import PlainError, gettext_noop

TOO_MANY_BY_HAND = gettext_noop(
    "What is set by hand comes to %(by_hand)s, more than the %(total)s to share. Lower a share, or let it be worked "
    "out."
)
TOO_FEW_BY_HAND = gettext_noop(
    "Every share is set by hand, and together they come to %(by_hand)s of %(total)s. Let at least one class take what "
    "is left."
)


@dataclass(frozen=True)
class Shares:
    """A share for each class. `held` ones stand at a bound: done, room, or set by hand.

    `minimum_kept` False: it was left out because it no longer fits. `trouble` is a sentence for whoever can mend it.
    """

    shares: tuple[int, ...]
    held: tuple[bool, ...]
    rule: Rule = Rule.LIFT
    minimum_kept: bool = True
    trouble: PlainError | None = None


def begun(classes: Sequence[PlannedClass]) -> bool:
    return any(one.done or one.spoiled for one in classes)


def share_out(
    wish: Wish, classes: Sequence[PlannedClass], rooms: Sequence[int] | None = None, *, keep: bool = False
) -> Shares:
    """Shares of all items, those done included, that come to `wish.at_least` wherever that is possible.

    `rooms` are the most items that each class can still make; None shares by enrolment alone, whether it fits or not.
    A share set by hand stands either way, and nobody's share falls below what the class has done; to `keep` is that it
    does not fall below what the class may have done uncounted, either. Shares come to more
    than was promised only where so many are done or set by hand already, and to less only where there is no room or
    nobody to take the rest.
    """
    total = wish.at_least
    held = [one.held(wish.minutes_per_item) if keep else one.done for one in classes]
    bounds = [
        _bounds(one, total, low, None if rooms is None else rooms[place])
        for place, (one, low) in enumerate(zip(classes, held, strict=True))
    ]
    least, most = [low for low, _high in bounds], [high for _low, high in bounds]
    lifted = [max(low, min(wish.minimum, high)) for low, high in bounds]
    kept = sum(lifted) <= max(total, sum(least))
    everywhere = (True,) * len(classes)
    if sum(most) <= total:
        return Shares(tuple(most), everywhere, trouble=_too_few(total, classes, sum(most)))
    trouble = None if kept or begun(classes) else _minimum_too_large(total, sum(lifted))
    if sum(least) >= total:
        too_many = _too_many(total, classes, sum(least))
        return Shares(tuple(least), everywhere, minimum_kept=kept, trouble=too_many or trouble)
    sharing = share_within(total, [one.taking_part for one in classes], least, most, wish.minimum if kept else 0)
    return Shares(sharing.shares, sharing.held, sharing.rule, kept, trouble)


def _bounds(one: PlannedClass, total: int, held: int, room: int | None) -> tuple[int, int]:
    """The least and the most of a class."""
    if one.fixed is not None:
        return (max(one.fixed, one.done),) * 2
    if not one.taking_part:
        return one.done, one.done
    return held, held + room if room is not None else max(held, total)


def _minimum_too_large(total: int, needed: int) -> PlainError:
    return CannotShare("minimum", MINIMUM_TOO_LARGE, needed=needed, total=total)


def _too_many(total: int, classes: Sequence[PlannedClass], come_to: int) -> PlainError | None:
    by_hand = any(one.fixed is not None and one.fixed > one.done for one in classes)
    if come_to > total and by_hand:
        return CannotShare("too_many_by_hand", TOO_MANY_BY_HAND, by_hand=come_to, total=total)
    return None


def _too_few(total: int, classes: Sequence[PlannedClass], come_to: int) -> PlainError | None:
    if come_to == total:
        return None
    if not any(one.taking_part for one in classes):
        return CannotShare("no_students", NO_STUDENTS, total=total)
    if all(one.fixed is not None or not one.taking_part for one in classes):
        return CannotShare("too_few_by_hand", TOO_FEW_BY_HAND, by_hand=come_to, total=total)
    return None
