"""From when on a partner has gone quiet."""

from __future__ import annotations

from datetime import date

from partners.ground.months import add_months
from partners.program.desk import Desk

# A hundred years: what is typed by mistake must not lead before the calendar begins.
MOST_MONTHS = 1200


def cut_off(desk: Desk) -> date:
    """A partner last heard of on this day or before has gone quiet; the months are a figure of the program."""
    return add_months(desk.day, -min(desk.program.quiet_after_months, MOST_MONTHS))
