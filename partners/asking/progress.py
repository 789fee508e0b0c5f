"""How far each need is: what is promised and still to come, what came, what is still to be found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import F, Sum

from partners.program.desk import Desk
from partners.promises.models import Side
from partners.wish_list.arithmetic import Still, still_needed
from partners.wish_list.models import Need
from partners.wish_list.wanted import wanted_of


@dataclass(frozen=True, slots=True)
class Progress:
    """`wanted` is None where the need says no number; then nothing can be counted down."""

    need: Need
    wanted: int | None
    promised: int
    received: int
    still: Still | None


def progress(desk: Desk, needs: Iterable[Need]) -> list[Progress]:
    """Every need with its counts, in three queries for any number of needs. What was bought came, too."""
    listed = list(needs)
    ids = [need.pk for need in listed]
    open_promises = desk.program.promises.filter(need__in=ids, side=Side.THEM, settled_on=None, quantity__isnull=False)
    to_come = open_promises.filter(quantity__gt=F("delivered")).order_by()
    promised = dict(to_come.values_list("need_id").annotate(total=Sum(F("quantity") - F("delivered"))))
    came = desk.program.gift_lines.filter(need__in=ids, quantity__isnull=False).order_by()
    received = Counter(dict(came.values("need_id").annotate(came=Sum("quantity")).values_list("need_id", "came")))
    bought = desk.program.purchase_lines.filter(need__in=ids, quantity__isnull=False).order_by()
    received.update(dict(bought.values("need_id").annotate(came=Sum("quantity")).values_list("need_id", "came")))
    return [counted(need, promised.get(need.pk, 0), received.get(need.pk, 0)) for need in listed]


def counted(need: Need, promised: int, received: int) -> Progress:
    wanted = wanted_of(need)
    still = None
    if wanted is not None:
        still = still_needed(
            wanted,
            on_hand=need.on_hand,
            promised=promised,
            received=received,
            pack_size=need.pack_size,
            pack_cents=need.pack_cents,
        )
    return Progress(need, wanted, promised, received, still)


def still_needed_of(desk: Desk, need: Need) -> int | None:
    """Pieces of one need still to be found; None where no number is known or nothing is missing."""
    still = progress(desk, [need])[0].still
    return still.pieces or None if still else None
