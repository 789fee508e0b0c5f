"""How many of a need are wanted, and what they cost; what came or is promised is not looked at."""

from __future__ import annotations

from partners.wish_list.arithmetic import needed
from partners.wish_list.models import Need


def wanted_of(need: Need) -> int | None:
    """The number that was typed, else what the students use."""
    if need.quantity is not None:
        return need.quantity
    if need.students is None:
        return None
    return needed(need.students, need.hundredths_per_student, need.spare_percent)


def cost_of(need: Need) -> int | None:
    """Whole packs of what is wanted, in cents; None without a number or a price."""
    wanted = wanted_of(need)
    if wanted is None or need.pack_cents is None:
        return None
    return -(-wanted // need.pack_size) * need.pack_cents
