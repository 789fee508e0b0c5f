"""The places of a planned outing, as its page shows them."""

from __future__ import annotations

from dataclasses import dataclass

from partners.asking.quiet_hours import when_to_go
from partners.asking.shown import Shown, show, thaw
from partners.visits.models import Outing, OutingStop, Visit


@dataclass(frozen=True)
class StopShown:
    """`shown` is the verdict as it was when the outing was planned; `visit` is there once somebody went."""

    stop: OutingStop
    shown: Shown | None
    hint: str
    people: str

    @property
    def visit(self) -> Visit | None:
        return self.stop.visit


def stops_shown(outing: Outing) -> list[StopShown]:
    """In their order, in a fixed number of queries."""
    rows = outing.stops.select_related("partner", "need", "visit").prefetch_related("partner__contacts")
    return [
        StopShown(
            stop=stop,
            shown=show(thaw(stop.verdict), stop.partner.name) if stop.verdict else None,
            hint=when_to_go(stop.partner, outing.day),
            people=", ".join(one.name for one in stop.partner.contacts.all() if one.left_on is None),
        )
        for stop in rows
    ]
