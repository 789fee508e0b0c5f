"""A large invented program for measuring: rows as the verbs would leave them, written in batches without events."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from partners.config.large_filler import Filler
from partners.config.large_helpers import fill_helpers
from partners.config.large_money import fill_money
from partners.config.large_trades import fill_trades
from partners.program.actions import set_up


@transaction.atomic
def load_large(follow_ups: int, day: date, helpers: int = 0) -> tuple[str, str]:
    """A program with so many follow-ups, one in ten of them open, and so many helpers with five turns each.

    Returns the keeper's sign-in name and password.
    """
    desk, password = set_up(name="Large Book", program_name=f"Large book of {follow_ups}", day=day)
    Filler(desk.program, follow_ups, day).fill()
    fill_trades(desk.program, follow_ups, day)
    fill_money(desk.program, follow_ups, day)
    if helpers:
        fill_helpers(desk.program, helpers, day)
    assert desk.user is not None  # noqa: S101 -- set_up makes it
    return desk.user.username, password
