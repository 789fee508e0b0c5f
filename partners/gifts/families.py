"""What families gave, counted by school and thing; no list anywhere says who gave what."""

from __future__ import annotations

from dataclasses import dataclass

from partners.gifts.models import GiftQuerySet, Source
from partners.ground.names import fold
from partners.program.desk import Desk


@dataclass
class Counted:
    """One thing at one school: how many pieces where somebody counted them, and how often some came."""

    school: str
    item: str
    pieces: int = 0
    times: int = 0

    @property
    def count(self) -> str:
        return f"{self.pieces:,}" if self.pieces else ""


def family_gifts(desk: Desk, gifts: GiftQuerySet, source: str = Source.FAMILIES) -> list[Counted]:
    """By school, then by thing; the same words in another spelling are the same thing.

    `source` may be another that names nobody.
    """
    lines = desk.gift_lines.filter(gift__in=gifts.filter(source=source).order_by())
    rows = lines.order_by("gift__school__name", "pk").values_list(
        "gift__school__name", "unit", "description", "quantity"
    )
    found: dict[tuple[str, str], Counted] = {}
    for school, unit, description, quantity in rows.iterator(chunk_size=2000):
        named = set(fold(unit).split()) <= set(fold(description).split())
        item = description if named else f"{description} ({unit})"
        one = found.setdefault((school or "", fold(item)), Counted(school or "", item))
        one.pieces += quantity or 0
        one.times += 1
    return sorted(found.values(), key=lambda one: (one.school, fold(one.item)))
