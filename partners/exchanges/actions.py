"""Verbs: what is agreed, how it is put right, its papers, its show, and how it is called off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.directory.actions import add_partner
from partners.directory.models import Partner
from partners.exchanges.models import Trade
from partners.exchanges.plain_items import plain_needed, undecorated
from partners.exchanges.stored_plan import plan_again
from partners.ground.changes import change
from partners.program.desk import Desk
from partners.promises import actions as promises
from partners.promises.models import Part, Promise, Side
from partners.school.approval_actions import add_approval
from partners.school.approval_models import Approval, ApprovalFor
from partners.school.clock import clock
from partners.school.models import School

# School days after the handshake by which the principal has said yes and the memo is signed (common practice).
PAPERS_WITHIN = 5
# What stands in the memo: where one of these changes after both signed, it is signed anew.
TERMS = frozenset(
    {
        "school", "what", "size", "materials", "spare_percent", "names_on_work", "display_from", "display_until",
        "afterwards", "if_late",
    }
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class PlainItems:
    """Plain items that one `side` supplies by `due`. Without a `quantity` it is the larger number and the spares."""

    side: str
    due: date
    quantity: int | None = None
    what: str = ""
    carrier: str = ""


@dataclass(frozen=True, kw_only=True)
class Given:
    """One thing they give, with its own day. `row` is its promise, where it was written down before; a row without
    words is taken out.
    """

    what: str
    due: date | None = None
    quantity: int | None = None
    carrier: str = ""
    row: Promise | None = None


def agree(
    *,
    desk: Desk,
    partner: Partner | str,
    what: str,
    at_least: int,
    due: date,
    gives: Sequence[Given],
    at_most: int | None = None,
    carrier: str = "",
    plain: PlainItems | None = None,
    agreed_on: date | None = None,
    school: School | None = None,
    approval: Approval | None = None,
    **values: Any,
) -> Trade:
    """Both sides said yes. Each side's part is a promise with its day; a name as `partner` is a new one.

    We make from `at_least` up to `at_most` items (None: no more than that) by `due`; `carrier` brings them. `values`
    are further columns of Trade by name. Without an approval the principal is to be asked within a few days.
    """
    with change(desk, gettext_noop("Trade agreed with %(partner)s: %(what)s"), partner=partner, what=what) as book:
        if isinstance(partner, str):
            partner = add_partner(desk=desk, name=partner)
        day = agreed_on or desk.day
        trade = Trade(partner=partner, what=what, school=school, agreed_on=day, approval=approval, **values)
        trade.papers_due = papers_due(desk, day, school)
        trade.approval_settled = approval is not None
        book.add(trade)
        book.about(trade)
        ours = _of_ours(at_least, at_most, due, carrier)
        _promise(desk, trade, Part.MAKE, Side.US, what, ours)
        if plain is not None:
            _promise(
                desk, trade, Part.PLAIN, plain.side, plain.what or plain_words(what), _of_plain(trade, ours, plain)
            )
        for given in gives:
            _promise(desk, trade, Part.GIVE, Side.THEM, given.what, _of_given(given))
        return trade


def edit_trade(
    *,
    desk: Desk,
    trade: Trade,
    at_least: int,
    due: date,
    gives: Sequence[Given],
    at_most: int | None = None,
    carrier: str = "",
    plain: PlainItems | None = None,
    seen: int | None = None,
    **values: Any,
) -> Trade:
    """What was agreed is put right, and the promises of both sides with it. A memo that was signed is signed anew."""
    with change(desk, gettext_noop("Trade changed, %(partner)s: %(what)s"), **_named(trade)) as book:
        before = terms(trade)
        book.update(trade, seen=seen, **values)
        book.about(trade)
        make, supplied = trade.make, trade.plain
        ours = _of_ours(at_least, at_most, due, carrier)
        _put_right(desk, make, {**ours, "what": trade.what, "school": trade.school})
        _edit_plain(desk, trade, ours, plain, supplied)
        for given in gives:
            _edit_given(desk, trade, given)
        if trade.memo_signed_on is not None and terms(Trade.objects.get(pk=trade.pk)) != before:
            book.update(trade, memo_signed_on=None, papers_due=papers_due(desk, desk.day, trade.school))
        plan_again(book, desk, trade)
        return trade


def papers_due(desk: Desk, day: date, school: School | None) -> date:
    return clock(desk.program, school.pk if school else None).add(day, PAPERS_WITHIN)


def terms(trade: Trade) -> tuple[Any, ...]:
    """All that the memo states."""
    own = tuple(getattr(trade, name) for name in sorted(TERMS))
    rows = trade.promises.order_by("pk").values_list("part", "side", "what", "quantity", "at_most", "due", "carrier")
    return own, tuple(rows)


def call_off(*, desk: Desk, trade: Trade, day: date) -> Trade:
    """It will not be. What is still open on either side is left out, and nothing more of it falls due."""
    with change(desk, gettext_noop("Trade called off with %(partner)s: %(what)s"), **_named(trade)) as book:
        book.update(trade, called_off_on=day)
        book.about(trade)
        for promise in trade.promises.open():
            promises.leave_out(desk=desk, promise=promise, day=day)
        book.update_many(trade.classes.filter(start_on__isnull=False), start_on=None)
        return trade


def approve(*, desk: Desk, trade: Trade, approval: Approval | None) -> Trade:
    """The principal said yes; None: no approval is needed here."""
    with change(desk, gettext_noop("Trade approved, %(partner)s: %(what)s"), **_named(trade)) as book:
        return book.update(trade, approval=approval, approval_settled=True)


def approve_anew(*, desk: Desk, trade: Trade, school: School, by: str, on: date, **values: Any) -> Trade:
    """The principal's yes is recorded with the school, for this trade and the next ones."""
    with change(desk, gettext_noop("Trade approved, %(partner)s: %(what)s"), **_named(trade)) as book:
        given = add_approval(desk=desk, school=school, what_for=ApprovalFor.TRADES, by=by, on=on, **values)
        book.about(trade)
        return book.update(trade, approval=given, approval_settled=True)


def standing_approval(desk: Desk, school: School | None, day: date) -> Approval | None:
    """The school's approval for trades that is valid on the day; without a school, that of the only one there is."""
    if school is None:
        schools = list(desk.schools[:2])
        school = schools[0] if len(schools) == 1 else None
    found: Approval | None = desk.approvals.valid_on(day, ApprovalFor.TRADES).filter(school=school).first()
    return found


def sign_memo(*, desk: Desk, trade: Trade, day: date) -> Trade:
    with change(desk, gettext_noop("Memo signed with %(partner)s: %(what)s"), **_named(trade)) as book:
        return book.update(trade, memo_signed_on=day)


def move_papers(*, desk: Desk, trade: Trade, due: date) -> Trade:
    with change(desk, gettext_noop("Papers moved to %(due)s, %(partner)s: %(what)s"), due=due, **_named(trade)) as book:
        return book.update(trade, papers_due=due)


def put_on_show(*, desk: Desk, trade: Trade, day: date) -> Trade:
    with change(desk, gettext_noop("Put on show at %(partner)s: %(what)s"), **_named(trade)) as book:
        return book.update(trade, shown_on=day)


def take_down(*, desk: Desk, trade: Trade, day: date) -> Trade:
    with change(desk, gettext_noop("Taken down at %(partner)s: %(what)s"), **_named(trade)) as book:
        return book.update(trade, taken_down_on=day)


def move_show(*, desk: Desk, trade: Trade, first: date | None = None, last: date | None = None) -> Trade:
    """Another day for putting up or taking down; a show never ends before it begins."""
    begins, ends = first or trade.display_from, last or trade.display_until
    if begins is not None and ends is not None and ends < begins:
        begins, ends = (begins, begins) if last is None else (ends, ends)
    with change(desk, gettext_noop("Days of the show moved, %(partner)s: %(what)s"), **_named(trade)) as book:
        return book.update(trade, display_from=begins, display_until=ends)


def _named(trade: Trade) -> dict[str, Any]:
    return {"partner": trade.partner, "what": trade}


def _promise(desk: Desk, trade: Trade, part: str, side: str, what: str, values: dict[str, Any]) -> Promise:
    own: dict[str, Any] = {"trade": trade, "partner": trade.partner, "school": trade.school, "visit": trade.visit}
    collect = side == Side.THEM
    return promises.promise(
        desk=desk, part=part, side=side, what=what, made_on=trade.agreed_on, collect=collect, **own, **values
    )


def _of_ours(at_least: int, at_most: int | None, due: date, carrier: str) -> dict[str, Any]:
    most = at_most if at_most is not None and at_most > at_least else None
    return {"quantity": at_least, "at_most": most, "due": due, "carrier": carrier}


def _of_plain(trade: Trade, ours: dict[str, Any], plain: PlainItems) -> dict[str, Any]:
    needed = plain_needed(ours["at_most"] or ours["quantity"], trade.spare_percent)
    return {"quantity": plain.quantity or needed, "due": plain.due, "carrier": plain.carrier}


def plain_words(what: str) -> str:
    """The name of plain items that nobody named."""
    of = undecorated(what)
    return (_("plain %(what)s") % {"what": of} if of else _("plain items for %(what)s") % {"what": what})[:160]


def _of_given(given: Given) -> dict[str, Any]:
    return {"quantity": given.quantity, "due": given.due, "carrier": given.carrier}


def _put_right(desk: Desk, promise: Promise, values: dict[str, Any]) -> None:
    changed = {name: value for name, value in values.items() if getattr(promise, name) != value}
    if changed:
        promises.put_promise_right(desk=desk, promise=promise, **changed)


def _edit_plain(desk: Desk, trade: Trade, ours: dict[str, Any], plain: PlainItems | None, row: Promise | None) -> None:
    if plain is None:
        if row is not None:
            promises.drop_promise(desk=desk, promise=row)
        return
    values = _of_plain(trade, ours, plain)
    words = plain.what or plain_words(trade.what)
    if row is None:
        _promise(desk, trade, Part.PLAIN, plain.side, words, values)
        return
    collect = plain.side == Side.THEM
    own = {"side": plain.side, "what": words, "school": trade.school, "collect": collect}
    _put_right(desk, row, {**values, **own})


def _edit_given(desk: Desk, trade: Trade, given: Given) -> None:
    if given.row is None:
        if given.what:
            _promise(desk, trade, Part.GIVE, Side.THEM, given.what, _of_given(given))
    elif not given.what:
        promises.drop_promise(desk=desk, promise=given.row)
    else:
        _put_right(desk, given.row, {**_of_given(given), "what": given.what, "school": trade.school})
