"""The papers of a trade and its show: approval, memo, putting up, taking down."""

from __future__ import annotations

from datetime import date
from typing import Any

from partners.exchanges import actions
from partners.exchanges.due_shape import DAY, WHOM, line_of, moves, settle_at
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _

APPROVAL, MEMO = "exchanges.approval", "exchanges.memo"
PUT_UP, TAKE_DOWN = "exchanges.put-up", "exchanges.take-down"
OF_PAPERS = {"papers_due__isnull": False}


def _of_trade(name: str) -> tuple[str, ...]:
    return ("pk", name, "what", "agreed_on", *WHOM)


def _trade_line(
    source: str, row: tuple[Any, ...], hand: Hand, verbs: tuple[Any, Any], why: Any, *first: Act
) -> DueLine:
    """`verbs`: before whom it is about, and before what it is alone."""
    one = dict(zip(("pk", "due", "what", "agreed_on", *WHOM), row, strict=True))
    acts = (*first, *moves(settle_at(source, one["pk"])))
    said = why % {"day": spelled(one["agreed_on"], DAY)}
    return line_of(source, hand, one, verb=verbs[0], alone=verbs[1], what=one["what"], why=said, acts=acts)


def _approval(row: tuple[Any, ...], day: date) -> DueLine:
    asked = Act(_("It is approved"), row_link("exchanges:trade-approve", row[0]), opens=True)
    none = Act(_("No approval needed"), settle_at(APPROVAL, row[0]), code="done")
    why = _("trade of %(day)s; no approval is recorded for it")
    verbs = (_("Ask the principal: trade with"), _("Ask the principal about the trade:"))
    return _trade_line(APPROVAL, row, Hand.ASK, verbs, why, asked, none)


def _memo(row: tuple[Any, ...], day: date) -> DueLine:
    signed = Act(_("Both have signed"), settle_at(MEMO, row[0]), code="done")
    page = Act(_("The trade"), row_link("exchanges:trade-detail", row[0]), opens=True)
    why = _("trade of %(day)s; the memo is not signed")
    verbs = (_("Get the memo signed by"), _("Get the memo signed:"))
    return _trade_line(MEMO, row, Hand.WRITE, verbs, why, signed, page)


def _put_up(row: tuple[Any, ...], day: date) -> DueLine:
    done = Act(_("It is up"), settle_at(PUT_UP, row[0]), code="done")
    verbs = (_("Put on show at"), _("Put on show:"))
    return _trade_line(PUT_UP, row, Hand.MAKE, verbs, _("trade of %(day)s"), done)


def _down(row: tuple[Any, ...], day: date) -> DueLine:
    done = Act(_("It is down"), settle_at(TAKE_DOWN, row[0]), code="done")
    verbs = (_("Take down at"), _("Take down:"))
    return _trade_line(TAKE_DOWN, row, Hand.MAKE, verbs, _("trade of %(day)s"), done)


def _trades(**where: Any) -> Any:
    return lambda desk: desk.trades.filter(called_off_on=None, **where)


def _no_approval(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.approve(desk=desk, trade=row, approval=None)


def _signed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.sign_memo(desk=desk, trade=row, day=day)


def _up(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.put_on_show(desk=desk, trade=row, day=day)


def _took_down(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.take_down(desk=desk, trade=row, day=day)


def _move_papers(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    actions.move_papers(desk=desk, trade=row, due=due)


def _move_first(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    actions.move_show(desk=desk, trade=row, first=due)


def _move_last(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    actions.move_show(desk=desk, trade=row, last=due)


def _trade_source(
    slug: str, hand: Hand, name: str, where: dict[str, Any], line: Any, done: Any, move: Any
) -> DueSource:
    """One of a trade's papers, or a day of its show, which passes."""
    return DueSource(
        slug=slug, hand=hand, rows=_trades(**where), date_field=name, columns=_of_trade(name), line=line,
        settle={"done": done, "move": move}, runs_out=hand is Hand.MAKE,
    )  # fmt: skip


SOURCES: tuple[DueSource, ...] = (
    _trade_source(
        APPROVAL, Hand.ASK, "papers_due", {**OF_PAPERS, "approval_settled": False}, _approval, _no_approval,
        _move_papers,
    ),
    _trade_source(MEMO, Hand.WRITE, "papers_due", {**OF_PAPERS, "memo_signed_on": None}, _memo, _signed, _move_papers),
    _trade_source(
        PUT_UP, Hand.MAKE, "display_from", {"display_from__isnull": False, "shown_on": None}, _put_up, _up, _move_first
    ),
    _trade_source(
        TAKE_DOWN, Hand.MAKE, "display_until", {"display_until__isnull": False, "taken_down_on": None}, _down,
        _took_down, _move_last,
    ),
)  # fmt: skip
