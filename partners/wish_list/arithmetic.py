"""How many are needed, and how many of them are still to be found. Whole numbers throughout."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Still:
    """`pieces` still to be found, in how many `packs`, for about how many `cents` (None without a price)."""

    pieces: int
    packs: int
    cents: int | None


def needed(students: int, hundredths_per_student: int = 100, spare_percent: int = 0) -> int:
    """ceil(students × per student × (1 + spare)), exactly.

    `hundredths_per_student`: 100 is one each, 50 is one for two. Raises ValueError for anything below zero.
    """
    if min(students, hundredths_per_student, spare_percent) < 0:
        raise ValueError("Students, share and spare cannot be below zero.")
    return -(-students * hundredths_per_student * (100 + spare_percent) // 10_000)


def still_needed(
    wanted: int,
    *,
    on_hand: int = 0,
    promised: int = 0,
    received: int = 0,
    pack_size: int = 1,
    pack_cents: int | None = None,
) -> Still:
    """What is wanted less what is on hand, promised and received, never below zero, rounded up to whole packs.

    `promised` counts what is still to come, so that what came is not taken off twice. Raises ValueError for a pack
    without anything in it.
    """
    if pack_size < 1:
        raise ValueError("A pack holds at least one.")
    missing = max(0, wanted - on_hand - promised - received)
    packs = -(-missing // pack_size)
    return Still(packs * pack_size, packs, None if pack_cents is None else packs * pack_cents)
