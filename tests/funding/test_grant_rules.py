"""What speaks against a purchase from a grant, at the edges of its days and its lines.

That nothing is bought before the award, after the last day, or beyond a line is common practice of grantmakers.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from partners.funding.grant_limits import Against, Charge, Concern, concerns, line_left
from partners.funding.grant_rules import purchase_warnings

FROM, UNTIL = date(2026, 10, 12), date(2027, 3, 31)
DAY = timedelta(days=1)


def found(bought_on=FROM, state="awarded", buy_from=FROM, spend_by=UNTIL, charges=()):
    return concerns(bought_on=bought_on, state=state, buy_from=buy_from, spend_by=spend_by, charges=charges)


@pytest.mark.parametrize("bought_on", [FROM, UNTIL])
def test_the_first_and_the_last_day_are_in_time(bought_on):
    assert found(bought_on) == []


def test_a_day_outside_is_named_with_the_day_that_would_have_been_in_time():
    assert found(FROM - DAY) == [Concern(Against.TOO_EARLY, day=FROM)]
    assert found(UNTIL + DAY) == [Concern(Against.TOO_LATE, day=UNTIL)]


def test_days_that_nobody_named_forbid_nothing():
    assert found(date(2020, 1, 1), buy_from=None, spend_by=None) == []


@pytest.mark.parametrize(
    ("state", "what"),
    [("planned", Against.NOT_ASKED), ("asked", Against.NOT_ANSWERED), ("refused", Against.REFUSED)],
)
def test_nothing_is_bought_before_the_award(state, what):
    assert [one.what for one in found(state=state)] == [what]


# By hand: a line of 120.00 with 15.00 shipping got 20.00 from another line, gave 5.00 away, and 140.00 were spent:
# 120 + 15 + 20 - 5 - 140 = 10.00.
LEFT = line_left(planned=12_000, shipping=1_500, moved_in=2_000, moved_out=500, spent=14_000)


@pytest.mark.parametrize(
    ("left", "cents", "over"),
    [(LEFT, 1_000, 0), (LEFT, 1_001, 1), (0, 250, 250), (-300, 250, 550), (-300, -100, 0), (None, 99_999, 0)],
)
def test_a_full_line_says_by_how_much(left, cents, over):
    charge = Charge(left, cents, "Clay")
    assert [one.charge.over_cents for one in found(charges=[charge])] == ([over] if over else [])


def test_everything_that_speaks_against_it_is_said():
    said = purchase_warnings(
        bought_on=FROM - DAY,
        state="asked",
        buy_from=FROM,
        spend_by=UNTIL,
        charges=[Charge(LEFT, 1_250, "Clay"), Charge(0, 250)],
    )
    assert said == [
        "This grant is not awarded yet. Most grantmakers pay for nothing bought before the award is there in writing.",
        "Bought too early: the grant pays only for what is bought from October 12, 2026 on.",
        "Clay: only $10.00 of the grant is left for it. This goes over by $2.50.",
        "A line of the grant: nothing of the grant is left for it. This goes over by $2.50.",
    ]
