"""Logging a visit: what was said there becomes rows of many rooms, as one event."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.asking.outing_page import Draft, stops
from partners.asking.said import Said
from partners.directory.actions import add_contact, add_partner, never_ask, rest
from partners.directory.models import Contact, Partner
from partners.gifts.models import ThanksFor
from partners.gifts.thanks_actions import owe_thanks
from partners.ground.changes import change
from partners.ground.names import name_key
from partners.letters.actions import left_there
from partners.program.desk import Desk
from partners.promises.actions import make_offer, promise
from partners.promises.counted import FOR_ANYTHING
from partners.promises.models import Side
from partners.school.approval_models import Approval
from partners.school.clock import clock
from partners.school.models import School
from partners.visits.actions import (
    answer_ask,
    follow_up_done,
    look_after,
    plan_follow_up,
    plan_outing,
    reach_stop,
    record_ask,
    record_visit,
)
from partners.visits.follow_up_rule import after_no
from partners.visits.models import Answer, Ask, Happened, Outing, Visit


def log_visit(*, desk: Desk, said: Said) -> Visit:
    """Writes the visit and all that follows from it. An answer goes to the ask that waits for it, where one does."""
    with change(desk, gettext_noop("Visit to %(partner)s logged"), partner=said.where) as book:
        where = said.where
        partner = where if isinstance(where, Partner) else add_partner(desk=desk, name=where)
        visit = record_visit(
            desk=desk,
            partner=partner,
            happened=said.happened,
            day=said.day,
            how=said.how,
            contact=_met(desk, said, partner),
            sheet_left=said.sheet_left,
            note=said.note,
        )
        book.about(visit)
        if said.sheet_left:
            # First of all: what follows changes what the sheet would ask for.
            left_there(desk=desk, partner=partner, day=visit.day)
        if said.stop is not None and said.stop.visit_id is None:
            reach_stop(desk=desk, stop=said.stop, visit=visit)
        _went_back(desk, visit)
        if said.happened != Happened.HELLO:
            FOLLOWS[Happened(said.happened)](desk, said, visit)
        if said.our_promise:
            _we_promised(desk, said, visit)
        return visit


def _met(desk: Desk, said: Said, partner: Partner) -> Contact | None:
    """The person that was picked, else the one of the typed name, new where nobody at the partner bears it."""
    if not said.met:
        return said.contact
    known = partner.contacts.filter(name_key=name_key(said.met), left_on=None).first()
    return known or add_contact(desk=desk, partner=partner, name=said.met)


def _went_back(desk: Desk, visit: Visit) -> None:
    """A plain "go back" is done by going."""
    for plan in visit.partner.follow_ups.open().filter(ask=None, base__lt=visit.day):
        follow_up_done(desk=desk, follow_up=plan, day=visit.day, outcome=str(visit.get_happened_display()))


def _agreed(desk: Desk, said: Said, visit: Visit) -> None:
    ask = _waiting(desk, said, visit) or _for_anything(desk, visit) or _asked(desk, said, visit)
    answer = Answer.YES if said.happened == Happened.YES else Answer.SOME
    answer_ask(desk=desk, ask=ask, answer=answer, day=visit.day, reason=said.reason)
    need = said.need or ask.need
    promised = promise(
        desk=desk,
        partner=visit.partner,
        side=Side.THEM,
        what=said.what or ask.what,
        due=said.due or in_a_week(desk, visit.day, ask.school),
        due_hour=said.due_hour,
        made_on=visit.day,
        quantity=said.quantity,
        unit=need.unit if need else "",
        amount_cents=said.amount_cents,
        collect=not said.they_bring,
        ask=ask,
        visit=visit,
        school=ask.school,
        need=need,
    )
    _owe(desk, visit, ThanksFor.PROMISE, ask=ask, promise=promised, school=ask.school)


def _offered(desk: Desk, said: Said, visit: Visit) -> None:
    school = _school(desk, said)
    offer = make_offer(
        desk=desk,
        partner=visit.partner,
        what=_what(said),
        first_on=said.due or in_a_week(desk, visit.day, school),
        hour=said.due_hour,
        every=said.every,
        ends_on=said.ends_on,
        quantity=said.quantity,
        visit=visit,
        school=school,
        need=said.need,
    )
    _owe(desk, visit, ThanksFor.PROMISE, promise=offer.promises.get(), school=school)


def _maybe(desk: Desk, said: Said, visit: Visit) -> None:
    """Come back once and a last time. That they say "maybe" again is the follow-up done, not a new beginning."""
    before = _waiting(desk, said, visit)
    if before is None and _agreed_that_day(desk, said, visit):
        return
    ask = before or _asked(desk, said, visit)
    planned = ask.follow_ups.open().first()
    if planned is not None:
        follow_up_done(desk=desk, follow_up=planned, day=visit.day, outcome=str(visit.get_happened_display()))
    if before is None or said.back_on:
        _come_back(desk, said, visit, ask)
    elif planned is None:
        look_after(desk=desk, ask=ask, base=visit.day)


def _away(desk: Desk, said: Said, visit: Visit) -> None:
    """Nobody who decides was asked, unless the sheet that was left asks for us."""
    ask = _waiting(desk, said, visit)
    if ask is None and _agreed_that_day(desk, said, visit):
        return
    if ask is None and said.sheet_left and (said.need or said.what):
        ask = _asked(desk, said, visit)
    _come_back(desk, said, visit, ask)


def _refused(desk: Desk, said: Said, visit: Visit) -> None:
    partner = visit.partner
    ask = _asked(desk, said, visit)
    answer_ask(desk=desk, ask=ask, answer=Answer.NO, day=visit.day, reason=said.reason)
    rest(desk=desk, partner=partner, until=after_no(ask.asked_on).rest_until, why=_("they said no"))
    if said.never_again:
        never_ask(desk=desk, partner=partner, never=True)
        for other in partner.asks.waiting():
            answer_ask(desk=desk, ask=other, answer=Answer.NO, day=visit.day, reason=said.reason)
    _owe(desk, visit, ThanksFor.CONSIDERING, ask=ask, school=ask.school)


FOLLOWS = {
    Happened.YES: _agreed,
    Happened.SOME: _agreed,
    Happened.MAYBE: _maybe,
    Happened.NO: _refused,
    Happened.AWAY: _away,
    Happened.OFFERED: _offered,
}


def _we_promised(desk: Desk, said: Said, visit: Visit) -> None:
    promise(
        desk=desk,
        partner=visit.partner,
        side=Side.US,
        what=said.our_promise,
        due=said.our_due or in_a_week(desk, visit.day, _school(desk, said)),
        made_on=visit.day,
        collect=False,
        visit=visit,
        school=_school(desk, said),
    )


def _come_back(desk: Desk, said: Said, visit: Visit, ask: Ask | None) -> None:
    school = ask.school if ask else _school(desk, said)
    what = _("who decides was away") if ask is None and said.happened == Happened.AWAY else ""
    partner, day = visit.partner, visit.day
    plan_follow_up(desk=desk, partner=partner, base=day, named_day=said.back_on, ask=ask, school=school, what=what)


def _owe(desk: Desk, visit: Visit, reason: str, **about: Any) -> None:
    owe_thanks(desk=desk, partner=visit.partner, reason=reason, base=visit.day, **about)


def _waiting(desk: Desk, said: Said, visit: Visit) -> Ask | None:
    """The ask this answers: the one for the same need or by the same words; when nothing was named, the latest."""
    return _about(said, desk.asks.waiting().filter(partner=visit.partner, asked_on__lte=visit.day))


def _for_anything(desk: Desk, visit: Visit) -> Ask | None:
    """One that waits and named nothing: whatever they agree to answers it."""
    waiting: QuerySet[Ask] = desk.asks.waiting().filter(partner=visit.partner, asked_on__lte=visit.day)
    return waiting.filter(need=None, what=_anything()).first()


def _agreed_that_day(desk: Desk, said: Said, visit: Visit) -> bool:
    """A colleague got their yes to it on the same day, whichever of the two was written down first."""
    agreed = desk.asks.filter(partner=visit.partner, answer__in=(Answer.YES, Answer.SOME), answered_on=visit.day)
    return _about(said, agreed) is not None


def _about(said: Said, asks: Iterable[Ask]) -> Ask | None:
    found = list(asks)
    if said.need is None and not said.what:
        return next(iter(found), None)
    same_need = [ask for ask in found if said.need is not None and ask.need_id == said.need.pk]
    same_words = [ask for ask in found if said.what and name_key(ask.what) == name_key(said.what)]
    return next(iter(same_need + same_words), None)


def _asked(desk: Desk, said: Said, visit: Visit) -> Ask:
    before = _waiting(desk, said, visit)
    if before is not None:
        return before
    school = _school(desk, said)
    return record_ask(
        desk=desk,
        partner=visit.partner,
        what=_what(said),
        asked_on=visit.day,
        visit=visit,
        need=said.need,
        school=school,
        quantity=said.quantity if said.happened != Happened.SOME else None,
        amount_cents=said.amount_cents if said.happened != Happened.SOME else None,
        approval=_approval(desk, school, visit.day),
        needed_by=said.need.needed_by if said.need else None,
    )


def _what(said: Said) -> str:
    if said.what or said.need:
        return said.what or str(said.need)
    return _(FOR_ANYTHING) if said.amount_cents else _anything()


def _anything() -> str:
    return _("something for the art room")


def _school(desk: Desk, said: Said) -> School | None:
    """For which school: as said, else the need's, the outing's, or the only one there is."""
    named = said.school or (said.need.school if said.need else None)
    named = named or (said.stop.outing.school if said.stop else None)
    if named is not None:
        return named
    schools = list(desk.schools[:2])
    return schools[0] if len(schools) == 1 else None


def _approval(desk: Desk, school: School | None, day: date) -> Approval | None:
    """The standing approval for asking, the school's own before another's."""
    valid = list(desk.approvals.valid_on(day))
    own = [approval for approval in valid if school is not None and approval.school_id == school.pk]
    return next(iter(own if school is not None else valid), None)


def in_a_week(desk: Desk, day: date, school: School | None = None) -> date:
    """What is taken where no day was said: a week later, on a school day."""
    return clock(desk.program, school.pk if school else None).on_or_after(day + timedelta(days=7))


def plan_places(*, desk: Desk, draft: Draft) -> Outing:
    """The outing as it was put together; its new places are written down as partners with it."""
    with change(desk, gettext_noop("Outing on %(day)s planned"), day=draft.day):
        new = [add_partner(desk=desk, name=name) for name in draft.new]
        whole = replace(draft, partners=[*draft.partners, *new])
        return plan_outing(desk=desk, day=draft.day, stops=stops(desk, whole), school=draft.school)
