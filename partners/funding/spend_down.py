"""The best use of a leftover: how many of each offer to buy so that the money brings the most and is never overspent.

Money is whole cents, worth is a whole number; no floats. Exact, by a tree search of a few thousand steps and then lists
of purchases that no other beats, both cut off where even parts of packs could not bring enough (`_Search`).

Of purchases of the same worth the one that costs least is chosen. Of those that also cost the same, the one with more
of the offer that brings most for its money, then of the next, and so on; of offers that bring alike for their money the
dearer comes first, then the earlier in the list.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import gcd

Offer = tuple[int, int, int]
# Cost, worth and counts of a purchase; the last two stand below zero, so that sorting puts the greater first.
State = tuple[int, int, int]
TREE_STEPS = 2000


def best_purchase(budget_cents: int, offers: Sequence[Offer]) -> list[int]:
    """How many of each offer (price in cents, worth of one, at most how many) bring the greatest total worth.

    What costs nothing is taken whole; what is worth nothing is not bought. Raises ValueError for numbers below zero.
    """
    return _Search(budget_cents, offers).found() or []


def runner_up(budget_cents: int, offers: Sequence[Offer]) -> list[int] | None:
    """The best purchase that has more of something than the best one: never just a part of it.

    The same order decides as for the best. None where the money allows no such purchase, as when it buys everything.
    """
    return _Search(budget_cents, offers, best_purchase(budget_cents, offers)).found()


def next_step(budget_cents: int, offers: Sequence[Offer]) -> tuple[int, list[int]] | None:
    """The fewest cents more with which the best purchase is worth more, and that purchase; None where nothing is left.

    The least cost of so much worth is the same problem seen from the other side: what is left out spares the most
    money while it costs no more than the worth that can be missed.
    """
    best = best_purchase(budget_cents, offers)
    everything = sum(worth * most for _price, worth, most in offers)
    missed = everything - 1 - sum(worth * count for count, (_price, worth, _most) in zip(best, offers, strict=True))
    if missed < 0:
        return None
    left_out = best_purchase(missed, [(worth, price, most) for price, worth, most in offers if worth])
    wanted = [(price, most) for price, worth, most in offers if worth]
    cost = sum(price * (most - out) for out, (price, most) in zip(left_out, wanted, strict=True))
    return cost - budget_cents, best_purchase(cost, offers)


@dataclass(frozen=True, slots=True)
class _Item:
    """An offer that can be bought; `known` is how many the best purchase has, or -1; `digit` is its place in counts."""

    place: int
    price: int
    worth: int
    most: int
    known: int
    digit: int


class _Search:
    """One search: for the best purchase, or for the best with more of something than the purchase `besides`.

    Offers go by what they bring for their money, so what is still open is worth at most what it would bring if parts of
    one could be had (Dantzig 1957). A purchase in the making is dropped where that is not enough to reach the best one
    met so far. The lists hold at most one purchase for each cost and for each worth: min(budget, all worth) + 1. Where
    packs are worth the same, or some come before all others, they stay short at any price; the worst are worths that
    grow with the price (tests/bench/bench_spend_down.py).
    """

    def __init__(self, budget: int, offers: Sequence[Offer], besides: Sequence[int] | None = None) -> None:
        if budget < 0 or any(min(offer) < 0 for offer in offers):
            raise ValueError("Money, worth and counts cannot be below zero.")
        self.any_will_do = besides is None
        self.free = [most if worth and not price else 0 for price, worth, most in offers]
        # In steps of what divides every price: with prices in whole dollars, odd cents buy nothing.
        step = gcd(*(price for price, worth, _most in offers if worth)) or 1
        self.budget = budget // step
        self.items = _items(self.budget, [(price // step, worth, most) for price, worth, most in offers], besides)
        self.costs = list(accumulate((item.price * item.most for item in self.items), initial=0))
        self.worths = list(accumulate((item.worth * item.most for item in self.items), initial=0))
        # The best that was met in the tree; so far nothing, and anything is better.
        self.good: State = (self.budget + 1, 1, 0)

    def found(self) -> list[int] | None:
        if not self.items:
            return self.free if self.any_will_do else None
        self._look()
        within: list[State] = [(0, 0, 0)]
        beyond: list[State] = []
        for number, item in enumerate(self.items):
            more = self._grown(number, beyond, -1, item.most) + self._grown(number, within, item.known, item.most)
            within = _unbeaten(self._grown(number, within, -1, item.known))
            beyond = _unbeaten(more)
        return self._counts(beyond[-1][2]) if beyond else None

    def _look(self) -> None:
        """Down the tree, most of the best for its money first, while steps are left: meets a good purchase early."""
        last = len(self.items)
        branches = [(0, (0, 0, 0), self.any_will_do, self._room_for(0, 0))]
        for _step in range(TREE_STEPS + last):
            if not branches:
                return
            number, (cost, worth, counts), beyond, count = branches.pop()
            item = self.items[number]
            grown = (cost + count * item.price, worth - count * item.worth, counts - count * item.digit)
            if not self._hopeful(number + 1, grown):
                continue
            if count:
                branches.append((number, (cost, worth, counts), beyond, count - 1))
            beyond = beyond or count > item.known >= 0
            if number + 1 < last:
                branches.append((number + 1, grown, beyond, self._room_for(number + 1, grown[0])))
            elif beyond:
                self.good = grown

    def _room_for(self, number: int, cost: int) -> int:
        item = self.items[number]
        return min(item.most, (self.budget - cost) // item.price)

    def _hopeful(self, number: int, state: State) -> bool:
        """Whether, with items from `number` on, it can come to more than the good purchase, or as much for less money.

        Where both could only come out alike, the counts so far decide.
        """
        cost, worth, counts = state
        good_cost, good_worth, good_counts = self.good
        most = self._most_worth(number, self.budget - cost) - worth
        if most != -good_worth:
            return most > -good_worth
        least = cost + self._least_cost(number, worth - good_worth)
        if least != good_cost:
            return least < good_cost
        digit = self.items[number - 1].digit if number else 1
        return number == 0 or counts // -digit >= good_counts // -digit

    def _most_worth(self, number: int, room: int) -> int:
        """The most that items from `number` on bring for so much money, if parts of one could be had."""
        money = room + self.costs[number]
        place = bisect_right(self.costs, money) - 1
        worth = self.worths[place] - self.worths[number]
        if place < len(self.items):
            worth += (money - self.costs[place]) * self.items[place].worth // self.items[place].price
        return worth

    def _least_cost(self, number: int, wanted: int) -> int:
        """The least money for which items from `number` on bring so much, if parts of one could be had."""
        worth = max(wanted, 0) + self.worths[number]
        place = bisect_right(self.worths, worth) - 1
        cost = self.costs[place] - self.costs[number]
        if place < len(self.items):
            cost -= (self.worths[place] - worth) * self.items[place].price // self.items[place].worth
        return cost

    def _grown(self, number: int, states: Sequence[State], above: int, most: int) -> list[State]:
        """The states with more than `above` and at most `most` of one item besides, as long as they are hopeful."""
        grown = []
        item, hopeful, budget = self.items[number], self._hopeful, self.budget
        price, worth_of_one, digit = item.price, item.worth, item.digit
        for cost, worth, counts in states:
            count = min(most, (budget - cost) // price)
            state = (cost + count * price, worth - count * worth_of_one, counts - count * digit)
            # The item is the best for its money that is left, so each one fewer can only lower what can be reached.
            while count > above and hopeful(number + 1, state):
                grown.append(state)
                count -= 1
                state = (state[0] - price, state[1] + worth_of_one, state[2] + digit)
        return grown

    def _counts(self, counts: int) -> list[int]:
        found, rest = list(self.free), -counts
        for item in self.items:
            found[item.place], rest = divmod(rest, item.digit)
        return found


def _items(budget: int, offers: Sequence[Offer], besides: Sequence[int] | None) -> list[_Item]:
    most = [min(most, budget // price) if worth and price else 0 for price, worth, most in offers]
    places = [place for place in range(len(offers)) if most[place]]
    places.sort(key=lambda place: (Fraction(-offers[place][1], offers[place][0]), -offers[place][0], place))
    digits = list(accumulate((most[place] + 1 for place in reversed(places)), lambda a, b: a * b, initial=1))
    return [
        _Item(place, offers[place][0], offers[place][1], most[place], besides[place] if besides else -1, digit)
        for place, digit in zip(places, reversed(digits[:-1]), strict=True)
    ]


def _unbeaten(states: list[State]) -> list[State]:
    """Those that bring more than every one that costs no more, the cheapest first."""
    states.sort()
    kept: list[State] = []
    most = 1
    for state in states:
        if state[1] < most:
            kept.append(state)
            most = state[1]
    return kept
