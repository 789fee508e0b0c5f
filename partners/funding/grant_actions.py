"""Verbs: a grant from the application to the report, and what is agreed about its lines on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.directory.actions import add_partner, heard, rest
from partners.directory.models import Partner, PartnerKind
from partners.funding.grant_models import Grant, GrantChange, GrantLine, GrantState
from partners.funding.grant_sums import line_sums
from partners.gifts.actions import last_word
from partners.gifts.duties import award_duties, thanks_days
from partners.gifts.models import Thanks, ThanksFor
from partners.gifts.thanks_actions import owe_thanks
from partners.ground.changes import Change, ChangedMeanwhile, change
from partners.ground.money import format_cents
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.visits.follow_up_rule import after_no
from partners.wish_list.models import Need


@dataclass(frozen=True, kw_only=True)
class LineEdit:
    """A line as it is to be; without `row` a new one, without `what` one to take out. Cents with tax."""

    what: str
    planned_cents: int = 0
    shipping_cents: int = 0
    quantity: int | None = None
    need: Need | None = None
    row: GrantLine | None = None

    @property
    def values(self) -> dict[str, Any]:
        names = ("what", "quantity", "need", "planned_cents", "shipping_cents")
        return {name: getattr(self, name) for name in names}


def write_grant(
    *, desk: Desk, partner: Partner | str, title: str, lines: Sequence[LineEdit] = (), **values: Any
) -> Grant:
    """An application is begun. A name as `partner` is a new grantmaker."""
    with change(desk, gettext_noop("Grant of %(partner)s begun: %(title)s"), partner=partner, title=title) as book:
        if isinstance(partner, str):
            partner = add_partner(desk=desk, name=partner, kind=PartnerKind.GRANTMAKER)
        grant = book.add(Grant(partner=partner, title=title, **values))
        book.about(grant)
        _put_lines(book, grant, lines)
        return grant


def edit_grant(
    *, desk: Desk, grant: Grant, lines: Sequence[LineEdit] | None = None, seen: int | None = None, **values: Any
) -> Grant:
    """What was written down is put right. None as `lines` leaves them as they are; a name as `partner` is a new one."""
    with change(desk, gettext_noop("Grant changed: %(title)s, %(partner)s"), **_named(grant)) as book:
        book.about(grant)
        if isinstance(values.get("partner"), str):
            values["partner"] = add_partner(desk=desk, name=values["partner"], kind=PartnerKind.GRANTMAKER)
        with book.with_parts(grant):
            book.update(grant, seen=seen, **values)
            if grant.state == GrantState.AWARDED:
                book.update(grant, **_acceptance(desk, grant))
            _hear_again(book, grant, values)
            if lines is not None:
                _put_lines(book, grant, lines)
        return grant


def drop_grant(*, desk: Desk, grant: Grant) -> None:
    """It was written down by mistake. Raises PlainError once it was asked for, ProtectedError where papers need it."""
    if grant.state != GrantState.PLANNED:
        raise PlainError("asked", gettext_noop("It was asked for, so it stays in the book."))
    with change(desk, gettext_noop("Grant taken out: %(title)s, %(partner)s"), **_named(grant)) as book:
        book.about(grant)
        for rows in (grant.answers, grant.changes, grant.lines):
            for row in rows.all():
                book.remove(row)
        book.remove(grant)


def ask_for(
    *, desk: Desk, grant: Grant, asked_on: date, asked_cents: int, answer_by: date | None, seen: int | None = None
) -> Grant:
    """The application went to the grantmaker."""
    _must_be(grant, GrantState.PLANNED)
    with change(desk, gettext_noop("Grant asked for: %(title)s, %(partner)s"), **_named(grant)) as book:
        given = {"asked_on": asked_on, "asked_cents": asked_cents, "answer_by": answer_by}
        book.update(grant, seen=seen, state=GrantState.ASKED, **given)
        heard(desk=desk, partner=grant.partner, day=asked_on)
        return grant


def award(
    *, desk: Desk, grant: Grant, answered_on: date, awarded_cents: int, seen: int | None = None, **terms: Any
) -> Grant:
    """They said yes, in writing. `terms` are the conditions and the days by the columns' names. Thanks are owed."""
    _must_be(grant, GrantState.ASKED)
    with change(desk, gettext_noop("Grant awarded: %(title)s, %(partner)s"), **_named(grant)) as book:
        given = {"answered_on": answered_on, "awarded_cents": awarded_cents, **terms}
        given |= award_duties(desk, awarded_cents, answered_on, grant.school_id)
        book.update(grant, seen=seen, state=GrantState.AWARDED, **given)
        heard(desk=desk, partner=grant.partner, day=answered_on)
        _owe(desk, grant, ThanksFor.GRANT)
        return grant


def correct_award(*, desk: Desk, grant: Grant, seen: int | None = None, **values: Any) -> Grant:
    """The amount, the terms or a day of the award were others. Thanks that are still owed move with its day."""
    _must_be(grant, GrantState.AWARDED)
    with change(desk, gettext_noop("Award put right: %(title)s, %(partner)s"), **_named(grant)) as book:
        book.update(grant, seen=seen, **values)
        book.update(grant, **_acceptance(desk, grant))
        _hear_again(book, grant, values)
        owed = Thanks.objects.filter(grant=grant, reason=ThanksFor.GRANT).owed().first()
        if owed is not None and grant.answered_on is not None:
            book.update(owed, **thanks_days(desk, grant.answered_on, owed.school_id))
        return grant


def refuse(*, desk: Desk, grant: Grant, answered_on: date, reason: str = "", seen: int | None = None) -> Grant:
    """They said no: the grantmaker rests as after any no, and is thanked for considering it."""
    _must_be(grant, GrantState.ASKED)
    with change(desk, gettext_noop("Grant refused: %(title)s, %(partner)s"), **_named(grant)) as book:
        given = {"answered_on": answered_on, "refusal_reason": reason}
        book.update(grant, seen=seen, state=GrantState.REFUSED, **given)
        heard(desk=desk, partner=grant.partner, day=answered_on)
        asked_on = grant.asked_on or answered_on
        rest(desk=desk, partner=grant.partner, until=after_no(asked_on).rest_until, why=_("they said no"))
        _owe(desk, grant, ThanksFor.CONSIDERING)
        return grant


def agree_change(
    *,
    desk: Desk,
    grant: Grant,
    line: GrantLine,
    agreed_by: str,
    agreed_on: date,
    becomes: str = "",
    to_line: GrantLine | None = None,
    moved_cents: int = 0,
    paper_held: str = "",
) -> GrantChange:
    """Somebody at the grantmaker agreed that a line is spent on something else, or gives money to another line.

    Raises PlainError where the line has not so much left.
    """
    _must_be(grant, GrantState.AWARDED)
    with change(desk, gettext_noop("Change of the grant agreed: %(title)s, %(partner)s"), **_named(grant)) as book:
        book.about(grant)
        left = next(one.left for one in line_sums(grant) if one.line.pk == line.pk)
        if moved_cents > max(left, 0):
            words = gettext_noop("Only %(left)s is left for “%(line)s”, so no more can be moved.")
            raise PlainError("too_much", words, left=format_cents(max(left, 0)), line=line.what)
        agreed = GrantChange(grant=grant, line=line, to_line=to_line, moved_cents=moved_cents, paper_held=paper_held)
        agreed.was, agreed.becomes = (line.what, becomes) if becomes else ("", "")
        agreed.agreed_by, agreed.agreed_on = agreed_by, agreed_on
        if becomes:
            book.update(line, what=becomes)
        return book.add(agreed)


def claim(*, desk: Desk, grant: Grant, day: date) -> Grant:
    """The receipts were handed to the grantmaker."""
    with change(desk, gettext_noop("Grant claimed: %(title)s, %(partner)s"), **_named(grant)) as book:
        return book.update(grant, claimed_on=day)


def report(*, desk: Desk, grant: Grant, day: date) -> Grant:
    """The report was handed in."""
    with change(desk, gettext_noop("Report on the grant handed in: %(title)s, %(partner)s"), **_named(grant)) as book:
        heard(desk=desk, partner=grant.partner, day=day)
        return book.update(grant, reported_on=day)


def accept_award(*, desk: Desk, grant: Grant, day: date) -> Grant:
    """Whoever decides at the school accepted the money."""
    with change(desk, gettext_noop("Award accepted: %(title)s, %(partner)s"), **_named(grant)) as book:
        return book.update(grant, accepted_on=day)


def move_acceptance(*, desk: Desk, grant: Grant, due: date) -> Grant:
    """The board decides on another day."""
    words = gettext_noop("Acceptance of the award moved to %(due)s: %(title)s")
    with change(desk, words, title=grant, due=due) as book:
        return book.update(grant, accept_due=due, accept_day_named=True)


def leave_rest(*, desk: Desk, grant: Grant) -> Grant:
    """What is left stays unspent; nobody is reminded of it any more."""
    with change(desk, gettext_noop("The rest of the grant stays unspent: %(title)s"), title=grant) as book:
        return book.update(grant, leftover_settled=True)


def return_rest(*, desk: Desk, grant: Grant, day: date) -> Grant:
    """They had paid in advance, and what was not spent went back to them."""
    with change(desk, gettext_noop("The rest of the grant went back: %(title)s, %(partner)s"), **_named(grant)) as book:
        heard(desk=desk, partner=grant.partner, day=day)
        return book.update(grant, leftover_settled=True, rest_back_on=day)


def not_this_time(*, desk: Desk, grant: Grant) -> Grant:
    """It is not applied for this time; what was written stays for another."""
    with change(desk, gettext_noop("Not applied for this time: %(title)s, %(partner)s"), **_named(grant)) as book:
        return book.update(grant, apply_by=None)


def expect_answer(*, desk: Desk, grant: Grant, due: date) -> Grant:
    """The answer is expected by another day."""
    words = gettext_noop("Answer of %(partner)s expected by %(due)s")
    with change(desk, words, partner=grant.partner, due=due) as book:
        return book.update(grant, answer_by=due)


def _named(grant: Grant) -> dict[str, Any]:
    return {"title": grant, "partner": grant.partner}


def _must_be(grant: Grant, state: str) -> None:
    if grant.state != state:
        raise ChangedMeanwhile(grant)


def _acceptance(desk: Desk, grant: Grant) -> dict[str, Any]:
    """Who must accept the award as it stands now; what was accepted, and a day that somebody named, stays."""
    if grant.accepted_on is not None or grant.answered_on is None:
        return {}
    due = award_duties(desk, grant.awarded_cents or 0, grant.answered_on, grant.school_id)
    if grant.accept_day_named and due["accept_due"] is not None:
        del due["accept_due"]
    return due


def _owe(desk: Desk, grant: Grant, reason: str) -> None:
    day = grant.answered_on or desk.day
    owe_thanks(desk=desk, partner=grant.partner, reason=reason, base=day, grant=grant, school=grant.school)


def _hear_again(book: Change, grant: Grant, values: dict[str, Any]) -> None:
    """Another day of asking or answering moves the day of the last word from the partner."""
    if {"asked_on", "answered_on"} & values.keys():
        partner = Partner.objects.get(pk=grant.partner_id)
        book.update(partner, last_heard_on=last_word(partner))


def _put_lines(book: Change, grant: Grant, lines: Sequence[LineEdit]) -> None:
    for line in lines:
        if line.row is not None and not line.what:
            book.remove(line.row)
    kept = [line for line in lines if line.what]
    for position, line in enumerate(kept, start=1):
        if line.row is not None:
            book.update(line.row, position=position, **line.values)
        else:
            book.add(GrantLine(grant=grant, position=position, **line.values))
