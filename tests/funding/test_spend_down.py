"""Spending what is left: against every other purchase, against the plain programme over cents, and at its edges."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import prod

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from partners.funding import spend_down
from partners.funding.spend_down import best_purchase, next_step, runner_up
from tests.bench.bench_spend_down import HARD, over_cents, shops, worth_of

OFFER = st.tuples(st.integers(0, 14), st.integers(0, 9), st.integers(0, 3))
OFFERS = st.lists(OFFER, max_size=6) | st.lists(
    st.tuples(st.integers(1, 14), st.just(1), st.integers(0, 3)), max_size=6
)
MANY = st.lists(st.tuples(st.integers(1, 30), st.integers(1, 30), st.integers(1, 2)), min_size=7, max_size=14)


@pytest.fixture(params=[0, 3, spend_down.TREE_STEPS], ids=["no tree", "a short tree", "the whole tree"])
def steps(request, monkeypatch):
    """The tree only makes the search faster: with less of it the answer is the same."""
    monkeypatch.setattr(spend_down, "TREE_STEPS", request.param)


def cost_of(counts, offers):
    return sum(count * price for count, (price, _worth, _most) in zip(counts, offers, strict=True))


def every_purchase(offers):
    """All purchases, the best first by the rule in words: worth, cost, then more of what brings most for its money."""
    bought = [range(most + 1 if worth else 1) for _price, worth, most in offers]
    sold = [place for place, (price, worth, _most) in enumerate(offers) if price and worth]
    sold.sort(key=lambda place: (-Fraction(offers[place][1], offers[place][0]), -offers[place][0], place))
    return sorted(
        product(*bought),
        key=lambda counts: (-worth_of(counts, offers), cost_of(counts, offers), [-counts[place] for place in sold]),
    )


@pytest.mark.usefixtures("steps")
@given(st.integers(0, 60), OFFERS)
def test_no_other_purchase_is_better(budget, offers):
    best = next(counts for counts in every_purchase(offers) if cost_of(counts, offers) <= budget)
    assert best_purchase(budget, offers) == list(best)


@given(st.integers(0, 60), OFFERS)
def test_the_runner_up_is_the_best_with_more_of_something(budget, offers):
    within = [counts for counts in every_purchase(offers) if cost_of(counts, offers) <= budget]
    other = [one for one in within if any(more > less for more, less in zip(one, within[0], strict=True))]
    assert runner_up(budget, offers) == (list(other[0]) if other else None)


@given(st.integers(0, 60), OFFERS)
def test_the_next_step_is_the_least_money_that_brings_more(budget, offers):
    now = worth_of(best_purchase(budget, offers), offers)
    better = [counts for counts in every_purchase(offers) if worth_of(counts, offers) > now]
    if not better:
        assert next_step(budget, offers) is None
        return
    cost = min(cost_of(counts, offers) for counts in better)
    assert next_step(budget, offers) == (
        cost - budget,
        list(next(counts for counts in better if cost_of(counts, offers) <= cost)),
    )


@settings(max_examples=25)
@given(st.integers(0, 200), MANY)
@example(100, [(7, 9, 2)] * 14)
def test_up_to_fourteen_offers_bring_what_trying_all_brings(budget, offers):
    assume(prod(most + 1 for _price, _worth, most in offers) <= 2_000_000)
    tried = {0: 0}
    for price, worth, most in offers:
        # Every purchase, the cheapest of each worth and the best of each cost kept, none cut off by any bound.
        grown: dict[int, int] = {}
        for cost, brings in tried.items():
            for count in range(most + 1):
                at = cost + count * price
                grown[at] = max(grown.get(at, 0), brings + count * worth)
        tried = grown
    counts = best_purchase(budget, offers)
    assert cost_of(counts, offers) <= budget
    assert worth_of(counts, offers) == max(brings for cost, brings in tried.items() if cost <= budget)


@pytest.mark.parametrize("kind", [*shops(1), *HARD])
def test_all_kinds_agree_with_the_plain_programme_over_cents(kind):
    offers = {**shops(7, offers=12, dearest=90, most=4), **HARD_SMALL}[kind]
    counts = best_purchase(700, offers)
    assert cost_of(counts, offers) <= 700
    assert worth_of(counts, offers) == over_cents(700, offers)


HARD_SMALL = {kind: make(3, offers=12, dearest=90, most=4) for kind, make in HARD.items()}


@pytest.mark.parametrize(
    ("budget", "offers", "best"),
    [
        (0, [(5, 1, 3)], [0]),
        (100, [], []),
        (4, [(5, 1, 3)], [0]),
        (15, [(5, 1, 3)], [3]),
        (1000, [(5, 1, 3)], [3]),
        # What costs nothing is taken whole, what is worth nothing is not bought.
        (0, [(0, 1, 3), (0, 0, 3), (5, 0, 3)], [3, 0, 0]),
        # Equal worth: the cheaper; equal in both: the earlier.
        (10, [(10, 3, 1), (9, 3, 1)], [0, 1]),
        (10, [(10, 3, 1), (10, 3, 1)], [1, 0]),
        # A million packs of a cent are no more work than one.
        (500_000, [(1, 1, 1_000_000), (7, 1, 1_000_000)], [500_000, 0]),
    ],
)
def test_edges(budget, offers, best):
    assert best_purchase(budget, offers) == best


@pytest.mark.parametrize("find", [best_purchase, runner_up, next_step])
@pytest.mark.parametrize(("budget", "offer"), [(-1, (5, 1, 1)), (5, (-5, 1, 1)), (5, (5, -1, 1)), (5, (5, 1, -1))])
def test_numbers_below_zero_are_refused(find, budget, offer):
    with pytest.raises(ValueError, match="below zero"):
        find(budget, [offer])


def test_many_offers_do_not_exhaust_the_stack():
    # By hand: all cost a dollar, so 1,234.00 buy 1,234 of them, the first of the list; the next needs a dollar more.
    offers = [(100, 1, 1)] * 3000
    assert best_purchase(123_400, offers) == [1] * 1234 + [0] * 1766
    step = next_step(123_400, offers)
    assert step is not None
    assert step[0] == 100
