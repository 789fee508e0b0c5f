"""Sharing whole things over classes by their size: the largest-remainder method (Hamilton's, Vinton's).

The rule as in OpenStax, Contemporary Mathematics, 11.4: a class's standard quota is total × size ÷ all sizes; each gets
its lower quota, lifted to the minimum where one applies; what is left goes one by one to the largest fractional parts.
Whole numbers throughout, never floats. No published rule breaks exact ties: here the larger class comes first, then
the order of the list.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from partners.ground.plain import PlainError, gettext_noop

NO_STUDENTS = gettext_noop(
    "There is nobody to share %(total)s over. Choose classes, or fill in how many students take part in them."
)
MINIMUM_TOO_LARGE = gettext_noop(
    "The minimum for each class makes it %(needed)s in all, more than the %(total)s to share. Lower the minimum, or "
    "choose fewer classes."
)


class CannotShare(PlainError):
    """There is no way to share it so; the sentence says why and what would help."""


class Rule(StrEnum):
    """What a minimum meant: `LIFT` is the published one.

    `RESERVE` stands in where the lifted quotas come to more than there is: each class first gets its minimum, and only
    the rest is shared by size.
    """

    LIFT = "lift"
    RESERVE = "reserve"


@dataclass(frozen=True)
class Sharing:
    """A share for each size, in its order; by which rule; and which of them stand at a bound of their own."""

    shares: tuple[int, ...]
    rule: Rule = Rule.LIFT
    held: tuple[bool, ...] = ()


def largest_remainder(total: int, sizes: Sequence[int], minimum: int = 0) -> list[int]:
    """Whole shares by size that come to exactly `total`; a size of 0 gets 0, every other at least `minimum`.

    Raises ValueError (CannotShare) when minima come to more than `total`, or when there is something to share and
    nobody to take it; and for numbers below zero.
    """
    return list(share_by_size(total, sizes, minimum).shares)


def share_by_size(total: int, sizes: Sequence[int], minimum: int = 0) -> Sharing:
    """As `largest_remainder`, and says which rule was used."""
    _check(total, sizes, minimum)
    everybody = sum(sizes)
    shares = [max(total * size // everybody, minimum) if size else 0 for size in sizes]
    left = total - sum(shares)
    if left < 0:
        rest = share_by_size(total - minimum * _with_students(sizes), sizes)
        shares = [share + minimum if size else 0 for share, size in zip(rest.shares, sizes, strict=True)]
        return Sharing(tuple(shares), Rule.RESERVE, (False,) * len(sizes))
    # A class that was lifted has more than its quota and stands behind all others.
    above = [total * size - share * everybody for size, share in zip(sizes, shares, strict=True)]
    in_turn = sorted(range(len(sizes)), key=lambda place: (-above[place], -sizes[place], place))
    for place in in_turn[:left]:
        shares[place] += 1
    return Sharing(tuple(shares), held=(False,) * len(sizes))


def share_within(
    total: int, sizes: Sequence[int], least: Sequence[int], most: Sequence[int], minimum: int = 0
) -> Sharing:
    """Shares by size that also stay within bounds of their own: a share set by hand has both bounds alike.

    Shared by size; where that breaks bounds, those classes are held at them and the rest is shared over the others,
    again and again. Of the classes below their bound and those above theirs, the ones that are further out in all are
    held first, since holding them may bring the others back: so CSS Flexible Box Layout, 9.7, resolves lengths.
    A `minimum` binds wherever the upper bound allows it.

    Raises ValueError where the bounds leave no way to come to `total`.
    """
    least = [max(low, min(minimum, high)) if size else low for size, low, high in zip(sizes, least, most, strict=True)]
    most = [high if size else low for size, low, high in zip(sizes, least, most, strict=True)]
    if not sum(least) <= total <= sum(most) or any(low > high for low, high in zip(least, most, strict=True)):
        raise ValueError("These bounds leave no way to share so many.")
    shares, rule = list(least), Rule.LIFT
    free = [place for place in range(len(sizes)) if least[place] < most[place]]
    while free:
        held = sum(shares) - sum(shares[place] for place in free)
        sharing = share_by_size(total - held, [sizes[place] for place in free], minimum)
        rule = sharing.rule
        for place, share in zip(free, sharing.shares, strict=True):
            shares[place] = share
        broken = _further_out(free, shares, least, most)
        if not broken:
            break
        for place in broken:
            shares[place] = min(max(shares[place], least[place]), most[place])
        free = [place for place in free if place not in broken]
    return Sharing(tuple(shares), rule, tuple(place not in free for place in range(len(sizes))))


def _further_out(free: Sequence[int], shares: Sequence[int], least: Sequence[int], most: Sequence[int]) -> set[int]:
    below = {place: least[place] - shares[place] for place in free if shares[place] < least[place]}
    above = {place: shares[place] - most[place] for place in free if shares[place] > most[place]}
    lacking, beyond = sum(below.values()), sum(above.values())
    return (set(below) if lacking >= beyond else set()) | (set(above) if beyond >= lacking else set())


def _with_students(sizes: Sequence[int]) -> int:
    return sum(size > 0 for size in sizes)


def _check(total: int, sizes: Sequence[int], minimum: int) -> None:
    if total < 0 or minimum < 0 or any(size < 0 for size in sizes):
        raise ValueError("What is shared, sizes and the minimum cannot be below zero.")
    needed = minimum * _with_students(sizes)
    if needed > total:
        raise CannotShare("minimum", MINIMUM_TOO_LARGE, needed=needed, total=total)
    if total and not any(sizes):
        raise CannotShare("no_students", NO_STUDENTS, total=total)
