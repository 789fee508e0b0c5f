"""What is due, worked out the slow way: every row of the program is looked at, one by one.

Written from the sentences of the design, not from the code: come back to an ask; look after one that still waits and
has nobody coming back to it; what each side promised and has not done, in a trade or without one; classes that must
begin, papers and shows of trades that are not called off; thanks owed, to the families of a school once for all that
was to be thanked for in half a year; what somebody must still accept; loans to return; money to hand in; sessions to
confirm, to fill, to count and to thank for; kits at home; clearances and approvals that end; partners gone quiet, never
a resting one. A teacher of some schools sees what belongs to these or to none.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date, timedelta
from typing import Any, NamedTuple

from partners.ground.due import Hand
from partners.program.models import Program


class Due(NamedTuple):
    key: str
    due: date
    hand: Hand


def months_before(day: date, months: int) -> date:
    """The same day of an earlier month; the month's last day where it is shorter."""
    year, month = day.year, day.month
    for _step in range(months):
        year, month = (year - 1, 12) if month == 1 else (year, month - 1)
    for last in (day.day, 30, 29, 28):
        try:
            return date(year, month, min(day.day, last))
        except ValueError:
            continue
    raise AssertionError("Every month has 28 days.")


def dated(program: Program, day: date, schools: Collection[int]) -> Iterator[Due]:
    def seen(row: object) -> bool:
        school_id = getattr(row, "school_id", None)
        return not schools or school_id is None or school_id in schools

    come_back = [row for row in program.follow_ups.all() if row.done_on is None]
    followed = {row.ask_id for row in come_back}
    for row in filter(seen, come_back):
        yield Due(f"visits-follow-up-{row.pk}", row.due, Hand.CALL)
    for ask in filter(seen, program.asks.all()):
        if ask.answer == "waiting" and ask.pk not in followed:
            assert ask.look_on is not None
            yield Due(f"visits-look-after-{ask.pk}", ask.look_on, Hand.CALL)
    for promise in filter(seen, program.promises.all()):
        if promise.settled_on is None and promise.part:
            ours = promise.part == "make" or (promise.part == "plain" and promise.side == "us")
            yield Due(f"exchanges-{promise.part}-{promise.pk}", promise.due, Hand.MAKE if ours else Hand.COLLECT)
        elif promise.settled_on is None:
            ours = promise.side == "us"
            to_ask = not promise.collect and promise.due < day
            hand = Hand.MAKE if ours else Hand.CALL if to_ask else Hand.COLLECT
            yield Due(f"promises-{'ours' if ours else 'theirs'}-{promise.pk}", promise.due, hand)
    for trade in filter(seen, program.trades.filter(called_off_on=None)):
        if trade.papers_due and not trade.approval_settled:
            yield Due(f"exchanges-approval-{trade.pk}", trade.papers_due, Hand.ASK)
        if trade.papers_due and not trade.memo_signed_on:
            yield Due(f"exchanges-memo-{trade.pk}", trade.papers_due, Hand.WRITE)
        if trade.display_from and not trade.shown_on:
            yield Due(f"exchanges-put-up-{trade.pk}", trade.display_from, Hand.MAKE)
        if trade.display_until and not trade.taken_down_on:
            yield Due(f"exchanges-take-down-{trade.pk}", trade.display_until, Hand.MAKE)
    for one in program.trade_classes.all():
        owed = one.trade.promises.filter(part="make", settled_on=None).exists()
        begins = one.start_on is not None and one.started_on is None and one.trade.called_off_on is None and owed
        if begins and seen(one.school_class):
            assert one.start_on is not None
            yield Due(f"exchanges-start-{one.pk}", one.start_on, Hand.MAKE)
    for thanks in filter(seen, program.thanks.all()):
        if thanks.done_on is None:
            yield Due(f"gifts-thanks-{thanks.pk}", thanks.due, Hand.WRITE)
    to_families = filter(seen, program.gifts.filter(families_due__gte=day - timedelta(days=182)))
    unthanked = [gift for gift in to_families if not gift.families_thanked_on]
    for school_id in {gift.school_id for gift in unthanked}:
        own = [gift for gift in unthanked if gift.school_id == school_id]
        first = min(own, key=lambda gift: (gift.families_due, gift.pk))
        assert first.families_due is not None
        yield Due(f"gifts-families-{first.pk}", first.families_due, Hand.WRITE)
    for gift in filter(seen, program.gifts.all()):
        if gift.accept_due and not gift.accepted_on:
            yield Due(f"gifts-accept-{gift.pk}", gift.accept_due, Hand.ASK)
        if gift.return_on and not gift.returned_on:
            yield Due(f"gifts-return-{gift.pk}", gift.return_on, Hand.CALL)
        if gift.hand_in_due and not gift.handed_in_on:
            yield Due(f"gifts-hand-in-{gift.pk}", gift.hand_in_due, Hand.MONEY)
    for session in filter(seen, program.sessions.all()):
        yield from of_session(session)
    for kit in filter(seen, program.kits.all()):
        if kit.back_on is None:
            yield Due(f"helpers-kit-{kit.pk}", kit.due, Hand.CALL)
    for helper in filter(seen, program.helpers.all()):
        if helper.cleared and helper.cleared_until and helper.stopped_on is None and helper.forgotten_on is None:
            yield Due(f"helpers-clearance-{helper.pk}", helper.cleared_until, Hand.ASK)
    for approval in filter(seen, program.approvals.all()):
        if approval.ask_on and not approval.renewed and not approval.lapsed_on:
            yield Due(f"school-approval-{approval.pk}", approval.ask_on, Hand.ASK)
        if approval.lapsed_on and not approval.renewed:
            yield Due(f"school-lapsed-{approval.pk}", approval.lapsed_on, Hand.ASK)


def of_session(session: Any) -> Iterator[Due]:
    """Confirm a week and a day before, find more while too few said yes, note who came, thank whoever did."""
    turns = list(session.turns.all())
    open_still = session.called_off_on is None and session.counted_on is None
    if open_still:
        yield Due(f"helpers-count-{session.pk}", session.day, Hand.WRITE)
        for name, due, done in (
            ("week", session.week_due, session.week_done_on), ("day", session.day_due, session.day_done_on),
        ):  # fmt: skip
            if due and done is None:
                yield Due(f"helpers-{name}-{session.pk}", due, Hand.CALL)
        if len([turn for turn in turns if turn.reply == "yes"]) < session.needed:
            yield Due(f"helpers-short-{session.pk}", session.week_due or session.day_due or session.day, Hand.CALL)
    if session.counted_on and [turn for turn in turns if turn.came and turn.thanked_on is None]:
        yield Due(f"helpers-thanks-{session.pk}", session.day, Hand.WRITE)


def quiet(program: Program, day: date) -> Iterator[Due]:
    long_ago = months_before(day, program.quiet_after_months)
    for partner in program.partners.all():
        resting = partner.never_ask or (partner.rest_until is not None and partner.rest_until > day)
        if partner.last_heard_on and partner.last_heard_on <= long_ago and not resting:
            yield Due(f"directory-quiet-{partner.pk}", partner.last_heard_on, Hand.QUIET)


def due_list(program: Program, day: date, until: date, schools: Collection[int] = ()) -> list[Due]:
    """What has a day, by that day; then who has gone quiet, by the last word. Lines of one day come in any order."""
    by_day = [one for one in dated(program, day, schools) if one.due <= until]
    return sorted(by_day, key=lambda one: one.due) + sorted(quiet(program, day), key=lambda one: one.due)
