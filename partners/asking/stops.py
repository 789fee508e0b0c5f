"""The places of a planned outing, as its page shows them."""

from __future__ import annotations

from dataclasses import dataclass

from partners.asking.progress import Progress, progress
from partners.asking.quiet_hours import when_to_go
from partners.asking.shown import Shown, show, thaw
from partners.program.desk import Desk
from partners.promises.counted import counted
from partners.visits.models import Outing, OutingStop, Visit


@dataclass(frozen=True)
class StopShown:
    """`shown` is the verdict as it was when the outing was planned, `asked` what to ask for and how much of it is still
    needed; `visit` is there once somebody went.
    """

    stop: OutingStop
    asked: str
    shown: Shown | None
    hint: str
    people: str

    @property
    def visit(self) -> Visit | None:
        return self.stop.visit


def stops_shown(desk: Desk, outing: Outing) -> list[StopShown]:
    """In their order, in a fixed number of queries."""
    rows = outing.stops.select_related("partner", "need", "visit").prefetch_related("partner__contacts")
    needed = {one.need.pk: one for one in progress(desk, {stop.need for stop in rows if stop.need is not None})}
    return [
        StopShown(
            stop=stop,
            asked=asked(needed[stop.need.pk]) if stop.need is not None else "",
            shown=show(thaw(stop.verdict), stop.partner.name) if stop.verdict else None,
            hint=when_to_go(stop.partner, outing.day),
            people=", ".join(one.name for one in stop.partner.contacts.all() if one.left_on is None),
        )
        for stop in rows
    ]


def asked(need: Progress) -> str:
    still = need.still.pieces if need.still else 0
    return counted(still or None, need.need.unit, need.need.what)
