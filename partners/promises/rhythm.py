"""The days of a standing offer, counted from its first one."""

from __future__ import annotations

from datetime import date, timedelta

from partners.ground.months import add_months

WEEKS = {"week": 1, "two_weeks": 2}
MONTH = "month"


def day_of_turn(first: date, every: str, turn: int) -> date:
    """The day of collection number `turn` (0 is `first`), before anybody looks whether there is school.

    `every` is week, two_weeks or month. Months are counted from `first`: 31 January, 28 February, 31 March. Raises
    ValueError for another rhythm and OverflowError beyond the year 9999.
    """
    if every in WEEKS:
        return first + timedelta(weeks=WEEKS[every] * turn)
    if every == MONTH:
        if first.year + (first.month - 1 + turn) // 12 > date.max.year:
            raise OverflowError("date value out of range")
        return add_months(first, turn)
    raise ValueError("Every week, two weeks or month.")


def next_turn(first: date, every: str, turn: int, after: date) -> int:
    """The first turn behind `turn` whose day lies later than `after`: what was missed is not called up again."""
    if every in WEEKS:
        passed = (after - first).days // (7 * WEEKS[every])
    else:
        passed = (after.year - first.year) * 12 + after.month - first.month - 1
    found = max(turn + 1, passed)
    while day_of_turn(first, every, found) <= after:
        found += 1
    return found
