"""What a free day keeps ready: its next time, and the day to confirm it by."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from partners.funding.occasion_models import Occasion
from partners.funding.recurrence import confirm_day, next_time

Told = tuple[date, date | None]
DAY = timedelta(days=1)


def kept_ready(occasion: Occasion, told: Iterable[Told]) -> dict[str, date | None]:
    """`next_on` and `confirm_by`; `told` is (day, told_on) of each time that was written down.

    The next time is later than what was answered. What was missed between it and the answer is not called up again.
    """
    if occasion.ended_on is not None:
        return {"next_on": None, "confirm_by": None}
    after = max((max(day, told_on - DAY) for day, told_on in told if told_on is not None), default=None)
    rule, first = occasion.rule, occasion.first_on
    next_on = next_time(rule, first, after, occasion.ends_on)
    return {"next_on": next_on, "confirm_by": confirm_day(rule, first, next_on) if next_on else None}


def told_of(occasion: Occasion) -> list[Told]:
    return list(occasion.days.values_list("day", "told_on"))
