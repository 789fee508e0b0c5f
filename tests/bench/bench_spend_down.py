"""The best use of a leftover: 60 offers and budgets to 5,000.00 within 50 ms, and a plain programme over cents.

Run `.venv/bin/python -m tests.bench.bench_spend_down`. The plain one keeps the best worth for each cent, and not what
to buy; it is measured on a smaller purse, where it still ends soon. `HARD` are the families that are known to be
hard for exact methods (Pisinger, "Where are the hard knapsack problems?", 2005; made anew here): worths that grow with
the price, as no list of packs has them. They are shown, not bounded.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from functools import partial

from partners.funding.spend_down import Offer, best_purchase, next_step, runner_up
from tests.bench.measure import in_turns, ratio

OFFERS, MOST_MS, LEAST_RATIO = 60, 50.0, 20.0
BUDGETS = (21_460, 149_999, 499_999)
SMALL_BUDGET = 21_460
ROUNDS = 3
SEEDS = range(1, 6)


def worth_of(counts: Sequence[int], offers: Sequence[Offer]) -> int:
    return sum(count * worth for count, (_price, worth, _most) in zip(counts, offers, strict=True))


def over_cents(budget: int, offers: Sequence[Offer]) -> int:
    """The textbook's programme: the best worth for each number of cents, counts split into powers of two."""
    best = [0] * (budget + 1)
    for price, worth, most in offers:
        part = 1
        while most > 0:
            taken = min(part, most)
            cost, brings = taken * price, taken * worth
            if cost <= budget:
                with_it = [held + brings for held in best[: budget + 1 - cost]]
                best[cost:] = map(max, best[cost:], with_it)
            most, part = most - taken, part * 2
    return best[budget]


def prices(chance: random.Random, offers: int, dearest: int) -> list[int]:
    return [chance.randint(1 + dearest // 100, dearest) for _ in range(offers)]


def shops(seed: int, offers: int = OFFERS, dearest: int = 5000, most: int = 40) -> dict[str, list[Offer]]:
    """Wish lists: all worth the same, three that come before all others, and worths somebody thought of."""
    chance = random.Random(seed)
    cost, counts = prices(chance, offers, dearest), [chance.randint(1, most) for _ in range(offers)]
    first = set(chance.sample(range(offers), 3))
    before = 1 + sum(counts)
    near = [price + chance.randint(-dearest // 10, dearest // 10) for price in cost]
    return {
        "all worth the same": [(price, 1, count) for price, count in zip(cost, counts, strict=True)],
        "three before all others": [
            (price, before if place in first else 1, count)
            for place, (price, count) in enumerate(zip(cost, counts, strict=True))
        ],
        "all at nearly one price": [(dearest - price % 7, 1, count) for price, count in zip(cost, counts, strict=True)],
        "worths of one to five": [
            (price, chance.randint(1, 5), count) for price, count in zip(cost, counts, strict=True)
        ],
        "worths at random": [(price, chance.randint(1, 999), count) for price, count in zip(cost, counts, strict=True)],
        "worths near the price": [
            (price, max(1, w), count) for price, w, count in zip(cost, near, counts, strict=True)
        ],
    }


def _hard(worth: Callable[[int, int], int], even: bool = False) -> Callable[..., list[Offer]]:
    def make(seed: int, offers: int = OFFERS, dearest: int = 5000, most: int = 10) -> list[Offer]:
        chance = random.Random(seed)
        cost = [price + price % 2 if even else price for price in prices(chance, offers, dearest)]
        return [(price, worth(price, dearest), chance.randint(1, most)) for price in cost]

    return make


HARD = {
    "the price itself": _hard(lambda price, dearest: price),
    "the price and a tenth of the dearest": _hard(lambda price, dearest: price + dearest // 10),
    "the price less a little": _hard(lambda price, dearest: max(1, price - dearest // 100)),
    "even prices and an odd budget": _hard(lambda price, dearest: price + dearest // 10, even=True),
    "the price rounded up to threes": _hard(lambda price, dearest: 3 * -(-price // 3)),
}


def answers(budget: int, offers: Sequence[Offer]) -> None:
    """All that the page says."""
    best_purchase(budget, offers)
    runner_up(budget, offers)
    next_step(budget, offers)


def longest(work: Callable[[int, Sequence[Offer]], object], kind: str) -> float:
    """The longest time of any list of a kind with any budget, each at its best of some rounds."""
    lists = {seed: shops(seed)[kind] for seed in SEEDS}
    works = {(seed, budget): partial(work, budget, lists[seed]) for seed in SEEDS for budget in BUDGETS}
    return max(min(took) for took in in_turns(works, ROUNDS, warm_up=1).values())


def table() -> bool:
    """Prints the figures; whether the longest is within its bound, and the plain programme far enough behind."""
    worst = 0.0
    for kind in shops(1):
        took = longest(best_purchase, kind)
        worst = max(worst, took)
        print(f"{kind:<28} best {took:7.2f} ms   with runner-up and next step {longest(answers, kind):7.2f} ms")
    offers = shops(1)["three before all others"]
    works = {"lists": lambda: best_purchase(SMALL_BUDGET, offers), "cents": lambda: over_cents(SMALL_BUDGET, offers)}
    times = in_turns(works, ROUNDS, warm_up=1)
    behind = ratio(times, "cents", "lists")
    print(f"plain programme over 214.60: {min(times['cents']):.0f} ms, {behind:.0f} times as long")
    print(f"longest {worst:.2f} ms (at most {MOST_MS:.0f})")
    return worst < MOST_MS and behind > LEAST_RATIO


def hard_table() -> None:
    for kind, make in HARD.items():
        works = {seed: partial(best_purchase, SMALL_BUDGET, make(seed)) for seed in SEEDS}
        took = [times[0] for times in in_turns(works, 1, warm_up=0).values()]
        print(f"hard: {kind:<38} " + " ".join(f"{ms:8.1f}" for ms in took) + " ms")


if __name__ == "__main__":
    table()
    hard_table()
