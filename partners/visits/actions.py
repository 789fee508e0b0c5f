"""What can be done with visits, asks, answers, follow-ups and outings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.directory.actions import heard, rest
from partners.directory.models import Contact, Partner
from partners.ground.changes import Change, change
from partners.program.desk import Desk
from partners.school.approval_models import Approval
from partners.school.clock import clock
from partners.school.models import School
from partners.visits.follow_up_rule import FollowUpFigures, first_follow_up, last_follow_up, rest_after_silence
from partners.visits.frozen_verdict import Judged, freeze
from partners.visits.models import Answer, Ask, FollowUp, How, Outing, OutingStop, Visit
from partners.wish_list.models import Need

FIRST, LAST = 1, 2
LOOK = gettext_noop("Ask of %(partner)s to be looked after on %(due)s")


class Stop(NamedTuple):
    """A place to go to on an outing, what to ask for there, and the verdict of that moment."""

    partner: Partner
    need: Need | None
    verdict: Judged


def record_visit(
    *,
    desk: Desk,
    partner: Partner,
    happened: str,
    day: date,
    how: str = How.IN_PERSON,
    contact: Contact | None = None,
    sheet_left: bool = False,
    note: str = "",
) -> Visit:
    """They were in touch on `day`; what was asked, promised or planned is written by other verbs."""
    with change(desk, gettext_noop("Visit to %(partner)s logged"), partner=partner) as book:
        said = {"happened": happened, "contact": contact, "sheet_left": sheet_left, "note": note}
        visit = book.add(Visit(partner=partner, day=day, how=how, by=who(desk), **said))
        heard(desk=desk, partner=partner, day=day)
        return visit


def record_ask(
    *,
    desk: Desk,
    partner: Partner,
    what: str,
    asked_on: date,
    visit: Visit | None = None,
    need: Need | None = None,
    school: School | None = None,
    quantity: int | None = None,
    amount_cents: int | None = None,
    approval: Approval | None = None,
    needed_by: date | None = None,
) -> Ask:
    """One thing asked for, still without an answer. Until a follow-up is planned, a day is set to look after it."""
    with change(desk, gettext_noop("Asked %(partner)s for %(what)s"), partner=partner, what=what) as book:
        ask = Ask(partner=partner, what=what, asked_on=asked_on, asked_by=who(desk), visit=visit, need=need)
        ask.school, ask.quantity, ask.amount_cents = school, quantity, amount_cents
        ask.approval, ask.needed_by = approval, needed_by
        ask.look_on, ask.look_from = look_after_on(desk, ask, asked_on), asked_on
        return book.add(ask)


def answer_ask(*, desk: Desk, ask: Ask, answer: str, day: date, reason: str = "") -> Ask:
    """The answer came; an open follow-up to it is done with. Raises ValueError for an answer that is none."""
    if answer == Answer.WAITING:
        raise ValueError("Waiting is no answer.")
    with change(desk, gettext_noop("%(partner)s answered about %(what)s"), partner=ask.partner, what=ask) as book:
        _close_follow_ups(book, desk, ask, day, str(Answer(answer).label))
        return book.update(ask, answer=answer, answered_on=day, reason=reason, look_on=None, look_from=None)


def no_reply(*, desk: Desk, ask: Ask, day: date) -> Ask:
    """Nobody answered, and that is an answer: the partner rests until the same month next year."""
    with change(desk, gettext_noop("No reply from %(partner)s about %(what)s"), partner=ask.partner, what=ask):
        answer_ask(desk=desk, ask=ask, answer=Answer.NO_REPLY, day=day)
        rest(desk=desk, partner=ask.partner, until=rest_after_silence(ask.asked_on), why=_("no reply last time"))
        return ask


def plan_follow_up(
    *,
    desk: Desk,
    partner: Partner,
    base: date,
    ask: Ask | None = None,
    school: School | None = None,
    named_day: date | None = None,
    what: str = "",
) -> FollowUp:
    """Come back to it: on the day they named, else some days after `base`; always on a school day.

    An ask has one open follow-up: where there is one, it is planned anew. After one was done, the next is the last.
    """
    with change(desk, gettext_noop("Follow-up with %(partner)s planned"), partner=partner) as book:
        done = ask.follow_ups.exclude(done_on=None).count() if ask else 0
        number = LAST if done else FIRST
        due = follow_up_due(desk, base, number, school.pk if school else None, named_day)
        named = named_day is not None
        if ask is not None:
            book.update(ask, look_on=None, look_from=None)
            planned = ask.follow_ups.open().first()
            if planned is not None:
                return book.update(planned, due=due, base=base, named_day=named)
        words = what or (ask.what if ask else _("as we said"))
        follow_up = FollowUp(partner=partner, ask=ask, school=school, what=words[:160], number=number)
        follow_up.due, follow_up.base, follow_up.named_day = due, base, named
        return book.add(follow_up)


def follow_up_done(*, desk: Desk, follow_up: FollowUp, day: date, outcome: str = "") -> FollowUp:
    """It was done. Where the ask still waits, the first one plans the last; after the last the ask is looked after."""
    words = gettext_noop("Follow-up with %(partner)s done")
    with change(desk, words, partner=follow_up.partner) as book:
        book.update(follow_up, done_on=day, outcome=outcome)
        heard(desk=desk, partner=follow_up.partner, day=day)
        ask = follow_up.ask
        if ask is not None and ask.answer == Answer.WAITING:
            if follow_up.number == FIRST:
                plan_follow_up(desk=desk, partner=follow_up.partner, base=day, ask=ask, school=follow_up.school)
            else:
                look_after(desk=desk, ask=ask, base=day)
        return follow_up


def move_follow_up(*, desk: Desk, follow_up: FollowUp, due: date) -> FollowUp:
    """Another day, chosen by the teacher or the partner: it stays when the school calendar changes."""
    words = gettext_noop("Follow-up with %(partner)s moved to %(due)s")
    with change(desk, words, partner=follow_up.partner, due=due) as book:
        return book.update(follow_up, due=due, named_day=True)


def look_after(*, desk: Desk, ask: Ask, base: date) -> Ask:
    """Look after a waiting ask once more, some days after `base`."""
    due = look_after_on(desk, ask, base)
    with change(desk, LOOK, partner=ask.partner, due=due) as book:
        return book.update(ask, look_on=due, look_from=base)


def move_look(*, desk: Desk, ask: Ask, due: date) -> Ask:
    """Look after a waiting ask on a day that somebody named: it stays when the school calendar changes."""
    with change(desk, LOOK, partner=ask.partner, due=due) as book:
        return book.update(ask, look_on=due, look_from=None)


def plan_outing(*, desk: Desk, day: date, stops: Sequence[Stop], school: School | None = None) -> Outing:
    """Places in the order they are given, each with its verdict frozen. A "not yet" warns and stops nothing."""
    with change(desk, gettext_noop("Outing on %(day)s planned"), day=day) as book:
        outing = book.add(Outing(day=day, school=school))
        for position, (partner, need, verdict) in enumerate(stops, start=1):
            frozen = {"allowed": verdict.allowed, "verdict": freeze(verdict)}
            book.add(OutingStop(outing=outing, partner=partner, need=need, position=position, **frozen))
        return outing


def reach_stop(*, desk: Desk, stop: OutingStop, visit: Visit) -> OutingStop:
    """The place on the outing was visited."""
    with change(desk, gettext_noop("%(partner)s ticked on the outing"), partner=stop.partner) as book:
        return book.update(stop, visit=visit)


def who(desk: Desk) -> str:
    """The name that stands under what this person does."""
    return str(desk.user) if desk.user else desk.program.teacher


def figures(desk: Desk) -> FollowUpFigures:
    """The program's own days and months."""
    program = desk.program
    return FollowUpFigures(
        first_days=program.follow_up_days,
        last_days=program.last_follow_up_days,
        months_after_gift=program.rest_months_after_gift,
    )


def follow_up_due(
    desk: Desk, base: date, number: int, school_id: int | None = None, named_day: date | None = None
) -> date:
    """The school day to come back on: the one they named, or the program's days after the visit or the first time."""
    calendar = clock(desk.program, school_id)
    if number == FIRST or named_day is not None:
        return first_follow_up(base, calendar, named_day, figures(desk))
    return last_follow_up(base, calendar, figures(desk))


def look_after_on(desk: Desk, ask: Ask, base: date) -> date:
    """When to look whether an ask that still waits is to be let go: as long after `base` as a first follow-up."""
    return follow_up_due(desk, base, FIRST, ask.school_id)


def _close_follow_ups(book: Change, desk: Desk, ask: Ask, day: date, outcome: str) -> None:
    if book.update_many(ask.follow_ups.open(), done_on=day, outcome=outcome):
        heard(desk=desk, partner=ask.partner, day=day)
