"""Dates that were counted over a calendar or by a setting, worked out again when that changes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from datetime import date, timedelta
from typing import Any

from partners.exchanges.stored_plan import differing_rows
from partners.funding.buying_facts import claim_due, repay_due
from partners.gifts import dates
from partners.ground.changes import Change
from partners.helpers.session_facts import days_moved
from partners.program.desk import Desk
from partners.program.models import Program
from partners.promises.actions import day_by_rhythm
from partners.school.approvals import ask_again_on
from partners.school.calendar import SchoolCalendar, together
from partners.school.clock import calendars
from partners.visits.actions import FIRST

Days = Mapping[str, date | None]
Dated = tuple[Any, dict[str, Any]]


def differing(program: Program) -> Iterator[list[Dated]]:
    """For each kind of row, the open rows whose stored days differ from what the calendar says, with the right days."""
    known = calendars(program)
    all_schools = together(known.values())

    def on(row: Any) -> SchoolCalendar:
        return known.get(row.school_id, all_schools)

    def follow_up(row: Any) -> dict[str, date]:
        days = program.follow_up_days if row.number == FIRST else program.last_follow_up_days
        return {"due": on(row).on_or_after(row.base + timedelta(days=days))}

    def look(row: Any) -> dict[str, date]:
        return {"look_on": on(row).on_or_after(row.look_from + timedelta(days=program.follow_up_days))}

    def collection(row: Any) -> dict[str, date]:
        return {"due": day_by_rhythm(on(row), row.offer, row.turn)}

    def thanks(row: Any) -> dict[str, date]:
        due, late_from = dates.thanks_dates(on(row), row.base, program.thank_within, program.thank_late)
        return {"due": due, "late_from": late_from}

    def accept(row: Any) -> dict[str, date]:
        return {"accept_due": dates.accept_due(on(row), row.day)}

    def hand_in(row: Any) -> dict[str, date]:
        return {"hand_in_due": dates.hand_in_due(on(row), row.day)}

    def session(row: Any) -> dict[str, date | None]:
        return days_moved(row, on(row))

    procedures = {(one.school_id, one.what_for): one for one in program.procedures.all()}

    def approval(row: Any) -> dict[str, date | None]:
        return {"ask_on": ask_again_on(on(row), row, procedures.get((row.school_id, row.what_for)))}

    def receipt(row: Any) -> Days:
        return claim_due(row, program.fiscal_year_starts)

    def repayment(row: Any) -> Days:
        return repay_due(row)

    gifts = program.gifts.all()
    bought = program.purchases.filter(bought_on__isnull=False, not_claimed=False).select_related("school")
    kinds: list[tuple[Any, Callable[[Any], Days]]] = [
        (program.follow_ups.filter(done_on=None, named_day=False), follow_up),
        (program.asks.filter(look_on__isnull=False, look_from__isnull=False), look),
        (program.promises.filter(settled_on=None, by_rhythm=True).select_related("offer"), collection),
        (program.thanks.filter(done_on=None), thanks),
        (gifts.filter(accept_due__isnull=False, accepted_on=None, accept_day_named=False), accept),
        (gifts.filter(hand_in_due__isnull=False, handed_in_on=None), hand_in),
        (program.approvals.filter(until__isnull=False, renewed=False), approval),
        (program.sessions.filter(counted_on=None, called_off_on=None, day_due__isnull=False), session),
        (bought.filter(handed_in_on=None, claim_day_named=False), receipt),
        (bought.filter(handed_in_on__isnull=False, repaid_on=None, repay_day_named=False), repayment),
    ]
    for rows, days_of in kinds:
        # Where a calendar has no school day at all, this ends early; no cursor may stay open behind it.
        with closing(rows.iterator(chunk_size=2000)) as found:
            counted = ((row, dict(days_of(row))) for row in found)
            yield [(row, days) for row, days in counted if any(getattr(row, name) != day for name, day in days.items())]
    # With the number of children shares move as well, until work begins.
    yield differing_rows(program)


def redate(book: Change, desk: Desk) -> int:
    """Move every open date that was counted over the calendar. Returns how many rows moved.

    The program's figures count as they are stored: an undo may just have changed them.
    """
    return sum(book.update_each(rows) for rows in differing(Program.fresh(desk.program.pk)))
