"""The best use of a leftover: published knapsack examples, the source beside each."""

from __future__ import annotations

import pytest

from partners.funding.spend_down import best_purchase

# Burkardt, Florida State University, data set KNAPSACK_01: each item once, the best choice is the only one.
KNAPSACK_01 = [
    (
        165,
        [23, 31, 29, 44, 53, 38, 63, 85, 89, 82],
        [92, 57, 49, 68, 60, 43, 67, 84, 87, 72],
        309,
        {1, 2, 3, 4, 6},
    ),  # P01
    (26, [12, 7, 11, 8, 9], [24, 13, 23, 15, 16], 51, {2, 3, 4}),  # P02: by worth for its weight alone only 47
    (104, [25, 35, 45, 5, 25, 3, 2, 2], [350, 400, 450, 20, 70, 8, 5, 5], 900, {1, 3, 4, 5, 7, 8}),  # P05
    (170, [41, 50, 49, 59, 55, 57, 60], [442, 525, 511, 593, 546, 564, 617], 1735, {2, 4, 7}),  # P06
    (3, [4, 5, 6], [1, 2, 3], 0, set()),  # none fits
]
# Rosetta Code, "Knapsack problem/Bounded": weight, value, pieces; carried at most 400. From memory, worked out again.
BACKPACK = {
    "map": (9, 150, 1), "compass": (13, 35, 1), "water": (153, 200, 2), "sandwich": (50, 60, 2),
    "glucose": (15, 60, 2), "tin": (68, 45, 3), "banana": (27, 60, 3), "apple": (39, 40, 3), "cheese": (23, 30, 1),
    "beer": (52, 10, 3), "suntan cream": (11, 70, 1), "camera": (32, 30, 1), "t-shirt": (24, 15, 2),
    "trousers": (48, 10, 2), "umbrella": (73, 40, 1), "waterproof trousers": (42, 70, 1),
    "waterproof overclothes": (43, 75, 1), "note-case": (22, 80, 1), "sunglasses": (7, 20, 1), "towel": (18, 12, 2),
    "socks": (4, 50, 1), "book": (30, 10, 2),
}  # fmt: skip


@pytest.mark.parametrize(
    ("capacity", "weights", "profits", "best", "items"), KNAPSACK_01, ids=["P01", "P02", "P05", "P06", "none fits"]
)
def test_published_choices(capacity, weights, profits, best, items):
    counts = best_purchase(capacity, [(weight, profit, 1) for weight, profit in zip(weights, profits, strict=True)])
    assert {number for number, count in enumerate(counts, 1) if count} == items
    assert sum(count * profit for count, profit in zip(counts, profits, strict=True)) == best


def test_published_backpack():
    offers = list(BACKPACK.values())
    counts = best_purchase(400, offers)
    assert sum(count * worth for count, (_weight, worth, _pieces) in zip(counts, offers, strict=True)) == 1010
    assert sum(count * weight for count, (weight, _worth, _pieces) in zip(counts, offers, strict=True)) == 396
    assert all(count <= pieces for count, (_weight, _worth, pieces) in zip(counts, offers, strict=True))
