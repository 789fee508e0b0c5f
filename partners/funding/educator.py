"""What an educator may deduct of what was paid out of pocket, by calendar year, from published figures; without Django.

Only ever a note beside the figures: who qualifies, and for what, is for the law and a tax adviser to say.
"""

from __future__ import annotations

from dataclasses import dataclass

from partners.ground.reference import reference


@dataclass(frozen=True, slots=True)
class Cap:
    """The most that one educator may deduct for that year, in cents; None where the answer is to ask."""

    year: int
    cents: int | None
    source: str
    evidence: str


def cap_of(year: int) -> Cap | None:
    """None for a year that the table lacks; another year's figure never stands in for it."""
    for row in reference("educator")["years"]:
        if row["first"] <= year <= row["last"]:
            return Cap(year, row["cents"], row["source"], row["evidence"])
    return None


def deductible_cents(spent_cents: int, year: int) -> int | None:
    """What of so much, paid and not repaid, could count at most; None where no figure is known.

    Raises ValueError for less than nothing.
    """
    if spent_cents < 0:
        raise ValueError("Nobody spends less than nothing.")
    cap = cap_of(year)
    return None if cap is None or cap.cents is None else min(spent_cents, cap.cents)
