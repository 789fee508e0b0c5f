"""Sharing whole things: against the rule in fractions, against every other way to share, and at its edges."""

from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from partners.exchanges.apportion import CannotShare, Rule, largest_remainder, share_by_size, share_within

SIZES = st.lists(st.integers(0, 40), min_size=1, max_size=12)
TOTALS = st.integers(0, 400)
MINIMA = st.integers(0, 4)


def quotas(total, sizes):
    return [Fraction(total * size, sum(sizes)) for size in sizes]


def handed_out(total, sizes, minimum):
    """The published rule, one by one: lower quotas, lifted, then always whoever is furthest below the quota."""
    shares = [max(int(quota), minimum) if size else 0 for quota, size in zip(quotas(total, sizes), sizes, strict=True)]
    if sum(shares) > total:
        rest = handed_out(total - minimum * sum(size > 0 for size in sizes), sizes, 0)
        return [share + minimum if size else 0 for share, size in zip(rest, sizes, strict=True)]
    while sum(shares) < total:
        lacks = [quota - share for quota, share in zip(quotas(total, sizes), shares, strict=True)]
        furthest = [place for place, lack in enumerate(lacks) if lack == max(lacks)]
        shares[max(furthest, key=lambda place: (sizes[place], -place))] += 1
    return shares


@given(TOTALS, SIZES, MINIMA)
def test_shares_agree_with_the_rule_in_fractions(total, sizes, minimum):
    assume(any(sizes) and minimum * sum(size > 0 for size in sizes) <= total)
    shares = largest_remainder(total, sizes, minimum)
    assert sum(shares) == total
    assert shares == handed_out(total, sizes, minimum)


@given(TOTALS, SIZES, MINIMA)
def test_nobody_is_above_or_below_the_quota_but_by_the_rule(total, sizes, minimum):
    assume(any(sizes) and minimum * sum(size > 0 for size in sizes) <= total)
    sharing = share_by_size(total, sizes, minimum)
    for quota, share, size in zip(quotas(total, sizes), sharing.shares, sizes, strict=True):
        assert share >= (minimum if size else 0)
        if sharing.rule == Rule.LIFT:
            assert int(quota) <= share <= max(-(-quota // 1), minimum if size else 0)


@settings(max_examples=40)
@given(st.integers(0, 9), st.lists(st.integers(0, 9), min_size=1, max_size=4))
def test_no_other_way_to_share_comes_nearer_to_the_quotas(total, sizes):
    # Largest remainders minimise the distance to the quotas (Birkhoff 1976, from memory); here every way is tried.
    assume(any(sizes))

    def away(shares):
        return sum((share - quota) ** 2 for share, quota in zip(shares, quotas(total, sizes), strict=True))

    every = [way for way in product(range(total + 1), repeat=len(sizes)) if sum(way) == total]
    assert away(largest_remainder(total, sizes)) == min(map(away, every))


@given(TOTALS, SIZES)
def test_a_larger_class_never_gets_less(total, sizes):
    assume(any(sizes))
    pairs = sorted(zip(sizes, largest_remainder(total, sizes), strict=True))
    assert [share for _size, share in pairs] == sorted(share for _size, share in pairs)


def test_ties_go_to_the_larger_class_and_then_by_the_list():
    # No published rule; the project's own. Quotas 2.5, 1.5 and 1.5 leave one to give, then quotas 4/3 each.
    assert largest_remainder(4, [5, 3]) == [3, 1]
    assert largest_remainder(4, [3, 5]) == [1, 3]
    assert largest_remainder(5, [5, 5, 5]) == [2, 2, 1]


def test_nothing_to_share_is_shared():
    assert largest_remainder(0, [3, 4]) == [0, 0]
    assert largest_remainder(0, []) == []


@pytest.mark.parametrize(
    ("total", "sizes", "minimum", "code"),
    [(5, [], 0, "no_students"), (5, [0, 0], 0, "no_students"), (5, [4, 4, 0, 4], 2, "minimum"), (0, [4], 1, "minimum")],
)
def test_what_cannot_be_shared_is_refused_with_a_reason(total, sizes, minimum, code):
    with pytest.raises(CannotShare) as refused:
        largest_remainder(total, sizes, minimum)
    assert refused.value.code == code
    assert str(total) in str(refused.value)


@pytest.mark.parametrize(("total", "sizes", "minimum"), [(-1, [3], 0), (3, [-3, 5], 0), (3, [3], -1)])
def test_numbers_below_zero_are_refused(total, sizes, minimum):
    with pytest.raises(ValueError, match="below zero"):
        largest_remainder(total, sizes, minimum)


BOUNDED = st.lists(
    st.tuples(st.integers(0, 30), st.integers(0, 20), st.integers(0, 20)), min_size=1, max_size=8
)  # size, least, room above it


@given(BOUNDED, st.integers(0, 3), st.data())
def test_shares_stay_within_bounds_and_come_to_the_total(bounded, minimum, data):
    sizes = [size for size, _low, _room in bounded]
    least, most = [low for _size, low, _room in bounded], [low + room for _size, low, room in bounded]
    lowest = [max(low, min(minimum, high)) if size else low for size, low, high in zip(sizes, least, most, strict=True)]
    highest = [high if size else low for size, low, high in zip(sizes, least, most, strict=True)]
    total = data.draw(st.integers(sum(lowest), sum(highest)))
    sharing = share_within(total, sizes, least, most, minimum)
    assert sum(sharing.shares) == total
    for low, share, high in zip(lowest, sharing.shares, highest, strict=True):
        assert low <= share <= high
    free = [place for place, held in enumerate(sharing.held) if not held]
    rest = total - sum(share for share, held in zip(sharing.shares, sharing.held, strict=True) if held)
    assert [sharing.shares[place] for place in free] == largest_remainder(rest, [sizes[p] for p in free], minimum)


@settings(max_examples=40)
@given(BOUNDED, st.data())
def test_bounded_shares_lie_next_to_the_proportional_ones(bounded, data):
    sizes = [size for size, _low, _room in bounded]
    least = [low for _size, low, _room in bounded]
    most = [low + room if size else low for size, low, room in bounded]
    total = data.draw(st.integers(sum(least), sum(most)))
    shares = share_within(total, sizes, least, most).shares
    exact = clamped(total, sizes, least, most)
    assert max(abs(share - part) for share, part in zip(shares, exact, strict=True)) < 1


def clamped(total, sizes, least, most):
    """One rate of items per child for all, each class kept within its bounds, so that they come to the total."""

    def at(rate):
        return [min(max(rate * size, low), high) for size, low, high in zip(sizes, least, most, strict=True)]

    found = {Fraction(bound, size) for size, *both in zip(sizes, least, most, strict=True) if size for bound in both}
    bends = sorted(found | {Fraction(0)})
    for low, high in pairwise(bends):
        if sum(at(low)) <= total <= sum(at(high)):
            grown = sum(at(high)) - sum(at(low))
            return at(low + (high - low) * (total - sum(at(low))) / grown) if grown else at(low)
    return at(bends[-1])


def test_a_share_set_by_hand_stands_and_the_others_keep_the_sum():
    sharing = share_within(20, [10, 10, 10], [0, 12, 0], [20, 12, 20])
    assert sharing.shares == (4, 12, 4)
    assert sharing.held == (False, True, False)


def test_bounds_that_leave_no_way_are_refused():
    with pytest.raises(ValueError, match="no way"):
        share_within(20, [10, 10], [0, 0], [9, 9])
