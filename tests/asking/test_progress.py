"""How far each need is, from promises and gifts."""

from __future__ import annotations

from typing import Any

import pytest

from partners.asking.progress import progress
from partners.gifts.actions import Line, receive
from partners.program.desk import Desk
from partners.promises.actions import deliver, promise
from partners.wish_list.actions import add_need
from tests.people import make_partner

pytestmark = pytest.mark.django_db


def test_promised_counts_what_is_still_to_come_and_received_what_came(desk: Desk) -> None:
    need, partner = add_need(desk=desk, what="pots", quantity=100), make_partner(desk.program)
    said: dict[str, Any] = {"desk": desk, "partner": partner, "side": "them", "what": "pots", "due": desk.day}
    promised = promise(**said, made_on=desk.day, quantity=60, need=need)
    line = Line(description="pots", quantity=25, need=need, promise=promised)
    receive(desk=desk, source="partner", partner=partner, day=desk.day, form="goods", lines=[line])
    found = progress(desk, [need])[0]
    assert (found.promised, found.received) == (35, 25)
    assert found.still is not None
    assert found.still.pieces == 40


def test_our_own_promises_are_not_counted(desk: Desk) -> None:
    need, partner = add_need(desk=desk, what="pots", quantity=100), make_partner(desk.program)
    said: dict[str, Any] = {"desk": desk, "partner": partner, "side": "us", "what": "pots", "due": desk.day}
    ours = promise(**said, made_on=desk.day, quantity=60, need=need)
    deliver(desk=desk, promise=ours, day=desk.day, quantity=10)
    found = progress(desk, [need])[0]
    assert (found.promised, found.received) == (0, 0)


def test_any_number_of_needs_takes_three_queries(desk: Desk, django_assert_num_queries: Any) -> None:
    needs = [add_need(desk=desk, what=f"thing {n}", quantity=n) for n in range(12)]
    with django_assert_num_queries(3):
        assert [entry.wanted for entry in progress(desk, needs)] == list(range(12))
