"""Every day that is stored because it was counted over a calendar or by a setting, and how it is counted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from partners.funding.buying_facts import claim_due, repay_due
from partners.gifts import dates
from partners.helpers.session_facts import days_moved
from partners.program.models import Program
from partners.promises.actions import day_by_rhythm
from partners.school.approvals import ask_again_on
from partners.school.calendar import SchoolCalendar, together
from partners.school.clock import calendars
from partners.visits.actions import FIRST

Days = Mapping[str, date | None]

# By these no day is counted but their own; by promises also the shares and days of classes in a trade.
ALONE = frozenset(
    {
        "ask", "contact", "followup", "gift", "giftline", "grant",
        "grantanswer", "grantline", "helper", "kit", "letter", "need",
        "occasion", "occasionday", "outing", "outingstop", "partner", "purchase",
        "purchaseline", "session", "sheet", "thanks", "turn", "visit",
    }
)  # fmt: skip
PLANNED_BY = frozenset({"promise", "delivery"})


class StoredDays:
    """The right days of each kind of row, by the names of its columns, over the calendars as they are now."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self.known = calendars(program)
        self.all_schools = together(self.known.values())
        self.procedures = {(one.school_id, one.what_for): one for one in program.procedures.all()}

    def on(self, row: Any) -> SchoolCalendar:
        return self.known.get(row.school_id, self.all_schools)

    def follow_up(self, row: Any) -> Days:
        first = row.number == FIRST
        days = self.program.follow_up_days if first else self.program.last_follow_up_days
        return {"due": self.on(row).on_or_after(row.base + timedelta(days=days))}

    def look(self, row: Any) -> Days:
        return {"look_on": self.on(row).on_or_after(row.look_from + timedelta(days=self.program.follow_up_days))}

    def collection(self, row: Any) -> Days:
        return {"due": day_by_rhythm(self.on(row), row.offer, row.turn)}

    def thanks(self, row: Any) -> Days:
        within, late = self.program.thank_within, self.program.thank_late
        due, late_from = dates.thanks_dates(self.on(row), row.base, within, late)
        return {"due": due, "late_from": late_from}

    def acceptance(self, row: Any) -> Days:
        return {"accept_due": dates.accept_due(self.on(row), row.day)}

    def acceptance_of_award(self, row: Any) -> Days:
        return {"accept_due": dates.accept_due(self.on(row), row.answered_on)}

    def handing_in(self, row: Any) -> Days:
        return {"hand_in_due": dates.hand_in_due(self.on(row), row.day)}

    def families(self, row: Any) -> Days:
        return {"families_due": dates.families_due(self.on(row), row.day, self.program.thank_within)}

    def session(self, row: Any) -> Days:
        return days_moved(row, self.on(row))

    def approval(self, row: Any) -> Days:
        return {"ask_on": ask_again_on(self.on(row), row, self.procedures.get((row.school_id, row.what_for)))}

    def receipt(self, row: Any) -> Days:
        return claim_due(row, self.program.fiscal_year_starts)

    def repayment(self, row: Any) -> Days:
        return repay_due(row)

    def kinds(self) -> Iterator[tuple[Any, Callable[[Any], Days]]]:
        """The rows whose days are still open and were named by nobody, in no order, with how those are counted."""
        program = self.program
        yield program.follow_ups.filter(done_on=None, named_day=False), self.follow_up
        yield program.asks.filter(look_on__isnull=False, look_from__isnull=False), self.look
        yield program.promises.filter(settled_on=None, by_rhythm=True).select_related("offer"), self.collection
        yield program.thanks.filter(done_on=None), self.thanks
        gifts = program.gifts.all()
        yield gifts.filter(accept_due__isnull=False, accepted_on=None, accept_day_named=False), self.acceptance
        awards = program.grants.filter(accept_due__isnull=False, accepted_on=None, accept_day_named=False)
        yield awards.filter(answered_on__isnull=False), self.acceptance_of_award
        yield gifts.filter(hand_in_due__isnull=False, handed_in_on=None), self.handing_in
        yield gifts.families_to_thank().filter(families_day_named=False), self.families
        yield program.approvals.filter(until__isnull=False, renewed=False), self.approval
        yield program.sessions.filter(counted_on=None, called_off_on=None, day_due__isnull=False), self.session
        bought = program.purchases.filter(bought_on__isnull=False, not_claimed=False).select_related("school")
        yield bought.filter(handed_in_on=None, claim_day_named=False), self.receipt
        yield bought.filter(handed_in_on__isnull=False, repaid_on=None, repay_day_named=False), self.repayment
