"""Follow-ups to make, and asks that nobody has answered."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import gettext_noop

from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import page_link, row_link
from partners.ground.words import gettext as _
from partners.visits.actions import LAST, follow_up_done, move_follow_up, move_look, no_reply

FOLLOW_UP = "visits.follow-up"
LOOK_AFTER = "visits.look-after"

NAMED = gettext_noop("they named this day; first spoken of on %(day)s")
SECOND = gettext_noop("the last time; after it, let it rest")
SINCE = gettext_noop("asked on %(day)s")
THERE = gettext_noop("the visit was on %(day)s")


def _follow_up(row: tuple[Any, ...], day: date) -> DueLine:
    pk, due, what, number, named_day, base, ask_id, partner_id, partner, phone, school_id, school = row
    settle = row_link("agenda:settle", pk, FOLLOW_UP)
    acts = [
        _log(partner_id),
        Act(_("Done, no answer yet") if ask_id else _("Done"), settle, code="done"),
        Act(_("Move to…"), settle, code="move"),
        Act(_("Not this month"), settle, code="not_this_month"),
    ]
    if ask_id:
        acts.append(Act(_("No reply, let rest"), settle, code="no_reply"))
    return DueLine(
        source=FOLLOW_UP,
        pk=pk,
        due=due,
        hand=Hand.CALL,
        verb=_("Ask again at") if ask_id else _("Go back to"),
        alone=_("Ask again for") if ask_id else _("Go back:"),
        who=partner,
        who_url=row_link("directory:partner-detail", partner_id),
        what=what,
        why=_why(number, named_day, base, asked=ask_id is not None),
        partner_id=partner_id,
        school_id=school_id,
        school=school or "",
        phone=phone,
        acts=tuple(acts),
    )


def _why(number: int, named_day: bool, base: date, *, asked: bool) -> str:
    if number == LAST:
        return _(SECOND)
    return _(NAMED if named_day else SINCE if asked else THERE) % {"day": spelled(base, "MONTH_DAY_FORMAT")}


def _look_after(row: tuple[Any, ...], day: date) -> DueLine:
    pk, due, what, asked_on, partner_id, partner, phone, school_id, school = row
    settle = row_link("agenda:settle", pk, LOOK_AFTER)
    return DueLine(
        source=LOOK_AFTER,
        pk=pk,
        due=due,
        hand=Hand.CALL,
        verb=_("No answer yet from"),
        alone=_("No answer yet:"),
        who=partner,
        who_url=row_link("directory:partner-detail", partner_id),
        what=what,
        why=_(SINCE) % {"day": spelled(asked_on, "MONTH_DAY_FORMAT")},
        partner_id=partner_id,
        school_id=school_id,
        school=school or "",
        phone=phone,
        acts=(
            _log(partner_id),
            Act(_("No reply, let rest"), settle, code="no_reply"),
            Act(_("Move to…"), settle, code="move"),
            Act(_("Not this month"), settle, code="not_this_month"),
        ),
    )


def _log(partner_id: int) -> Act:
    url = page_link("visits:visit-new")
    return Act(_("What they said"), f"{url}?partner={partner_id}&how=phone", opens=True)


def _open_follow_ups(desk: Any) -> QuerySet[Any]:
    return desk.follow_ups.open()  # type: ignore[no-any-return]


def _asks_to_look_after(desk: Any) -> QuerySet[Any]:
    return desk.asks.filter(look_on__isnull=False)  # type: ignore[no-any-return]


def _done(*, desk: Any, row: Any, day: date, outcome: str = "", **_extra: Any) -> None:
    follow_up_done(desk=desk, follow_up=row, day=day, outcome=outcome)


def _move(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    move_follow_up(desk=desk, follow_up=row, due=due)


def _no_reply(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    """Where there was no ask there is no reply to miss: going back was tried, and that is all."""
    if row.ask is None:
        follow_up_done(desk=desk, follow_up=row, day=day, outcome=_("no reply"))
    else:
        no_reply(desk=desk, ask=row.ask, day=day)


def _move_look(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    move_look(desk=desk, ask=row, due=due)


def _let_rest(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    no_reply(desk=desk, ask=row, day=day)


WHOM = ("partner_id", "partner__name", "partner__phone", "school_id", "school__name")

SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=FOLLOW_UP,
        hand=Hand.CALL,
        rows=_open_follow_ups,
        date_field="due",
        columns=("pk", "due", "what", "number", "named_day", "base", "ask_id", *WHOM),
        line=_follow_up,
        settle={"done": _done, "move": _move, "no_reply": _no_reply},
    ),
    DueSource(
        slug=LOOK_AFTER,
        hand=Hand.CALL,
        rows=_asks_to_look_after,
        date_field="look_on",
        columns=("pk", "look_on", "what", "asked_on", *WHOM),
        line=_look_after,
        settle={"no_reply": _let_rest, "move": _move_look},
    ),
)
