"""A trade as it is agreed at the counter of the garden center: seed packets for terracotta pots."""

from __future__ import annotations

from datetime import date
from typing import Any

from partners.exchanges.actions import Given, PlainItems, agree
from partners.exchanges.models import Trade
from partners.program.desk import Desk
from partners.promises.models import Side
from tests import people

DAY = people.TUESDAY
PLAIN_DUE, DUE, GIVEN_DUE = date(2026, 10, 20), date(2026, 12, 4), date(2027, 4, 9)
POTS = Given(what="terracotta pots", quantity=60, due=GIVEN_DUE, carrier="they bring them")
PACKETS = PlainItems(side=Side.THEM, what="blank seed packets", due=PLAIN_DUE)


def make_trade(desk: Desk, **values: Any) -> Trade:
    """Agreed on the first Tuesday of October; `values` replace what was said."""
    said: dict[str, Any] = {
        "what": "decorated seed packets", "at_least": 200, "at_most": 250, "due": DUE, "plain": PACKETS,
        "gives": [POTS],
    }  # fmt: skip
    partner = values.pop("partner", None) or desk.partners.first() or people.make_partner(desk.program)
    return agree(desk=desk, partner=partner, **{**said, **values})
