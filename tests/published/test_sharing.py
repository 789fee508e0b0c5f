"""Sharing by the largest remainder: published examples, the source beside each."""

import pytest

from partners.exchanges.apportion import Rule, largest_remainder, share_by_size

# Birgen, Mathematics of Democracy (2020).
BIRGEN = [
    (250, [3292, 1524, 4162, 2132, 13890], [33, 15, 42, 21, 139]),
    (160, [69000, 267000, 133000, 331000], [14, 53, 27, 66]),
    # The Alabama paradox: one more to share, and the smallest loses one.
    (200, [940, 9030, 10030], [10, 90, 100]),
    (201, [940, 9030, 10030], [9, 91, 101]),
]
# The data set of the R package apportR.
APPORT_R = [(50, [150, 78, 173, 204, 295], [8, 4, 10, 11, 17])]
# Tannenbaum, Excursions in Modern Mathematics: the republic of Parador.
PARADOR = [(250, [1646000, 6936000, 154000, 2091000, 685000, 988000], [33, 139, 3, 42, 13, 20])]
# OpenStax, Contemporary Mathematics, 11.3, 11.4 and 11.5.
OPENSTAX = [
    (27, [13, 12, 5, 16, 7, 9], [6, 5, 2, 7, 3, 4]),
    (11, [6, 6, 2], [5, 5, 1]),
]
# Balinski and Young, "The Quota Method of Apportionment" (1975), example 1.
BALINSKI_YOUNG = [(100, [5117, 4400, 162, 161, 160], [51, 44, 2, 2, 1])]
# The tests of the Python package apportionment: who has no size gets nothing.
NOTHING = [(6, [0, 14, 28, 0, 0], [0, 2, 4, 0, 0])]


@pytest.mark.parametrize(
    ("total", "sizes", "published"), [*BIRGEN, *APPORT_R, *PARADOR, *OPENSTAX, *BALINSKI_YOUNG, *NOTHING]
)
def test_published_shares(total, sizes, published):
    assert largest_remainder(total, sizes) == published


@pytest.mark.parametrize(
    ("total", "sizes", "minimum", "published"),
    [
        # OpenStax, Contemporary Mathematics, 11.4: school districts, each with at least one.
        (616, [46310, 224230, 20, 16560, 38450], 1, [87, 424, 1, 31, 73]),
        # The vignette of the R package apportR, without and with a minimum.
        (5, [1, 3, 11], 0, [0, 1, 4]),
        (5, [1, 3, 11], 1, [1, 1, 3]),
    ],
)
def test_published_shares_lifted_to_a_minimum(total, sizes, minimum, published):
    sharing = share_by_size(total, sizes, minimum)
    assert (list(sharing.shares), sharing.rule) == (published, Rule.LIFT)


def test_where_lifting_overshoots_each_first_gets_the_minimum():
    # The sizes of apportR's vignette: lifted, they come to 11 of 10. What follows is the project's own rule by hand:
    # each gets 1; for the 3 left the quotas are 3/38, 6/38, 45/38, 9/38, 3/38, 36/38, 12/38.
    sharing = share_by_size(10, [1, 2, 15, 3, 1, 12, 4], 1)
    assert (list(sharing.shares), sharing.rule) == ([1, 1, 2, 1, 1, 2, 2], Rule.RESERVE)


def test_the_quota_of_every_published_example_is_kept():
    # OpenStax, Contemporary Mathematics, 11.5: Hamilton's method never breaks the quota rule.
    for total, sizes, _published in [*BIRGEN, *APPORT_R, *PARADOR, *OPENSTAX, *BALINSKI_YOUNG]:
        for size, share in zip(sizes, largest_remainder(total, sizes), strict=True):
            assert total * size // sum(sizes) <= share <= -(-total * size // sum(sizes))
