"""What each side promised and has not done yet; the parts of trades have lines of their own."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Q, QuerySet

from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import page_link, row_link
from partners.ground.money import format_cents
from partners.ground.words import gettext as _
from partners.promises.actions import deliver, move_promise, never_came, skip, that_was_all
from partners.promises.counted import counted

THEIRS_SLUG = "promises.theirs"
OURS_SLUG = "promises.ours"

COLUMNS = (
    "pk", "due", "due_hour", "what", "quantity", "at_most", "unit", "amount_cents", "delivered", "made_on", "collect",
    "turn", "partner_id", "partner__name", "partner__phone", "school_id", "school__name",
)  # fmt: skip


def _line(source: str, row: tuple[Any, ...], **own: Any) -> DueLine:
    one = dict(zip(COLUMNS, row, strict=True))
    what = counted(one["quantity"], one["unit"], one["what"], one["at_most"])
    if one["amount_cents"] is not None:
        what = f"{format_cents(one['amount_cents'])}, {what}"
    return DueLine(
        source=source,
        pk=one["pk"],
        due=one["due"],
        hour=one["due_hour"],
        who=one["partner__name"],
        who_url=row_link("directory:partner-detail", one["partner_id"]),
        what=what,
        partner_id=one["partner_id"],
        phone=one["partner__phone"],
        school_id=one["school_id"],
        school=one["school__name"] or "",
        **own,
    )


def _theirs(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(COLUMNS, row, strict=True))
    settle = row_link("agenda:settle", one["pk"], THEIRS_SLUG)
    acts = [
        Act(_("Something arrived"), f"{page_link('gifts:gift-new')}?promise={one['pk']}", opens=True),
        Act(_("All of it came"), settle, code="done"),
        Act(_("That was all"), settle, code="that_was_all"),
        Act(_("It never came"), settle, code="never_came"),
        Act(_("Move to…"), settle, code="move"),
        Act(_("Not this month"), settle, code="not_this_month"),
    ]
    if one["turn"] is not None:
        acts.insert(3, Act(_("Skip this time"), settle, code="skip"))
    if one["collect"]:
        hand, verb, alone = Hand.COLLECT, _("Collect from"), _("Collect")
    elif day > one["due"]:
        hand, verb, alone = Hand.CALL, _("Ask how it stands at"), _("Ask how it stands:")
    else:
        hand, verb, alone = Hand.COLLECT, _("They bring it:"), ""
    words = {"verb": verb, "alone": alone, "why": _why(one)}
    return _line(THEIRS_SLUG, row, hand=hand, fetched=one["collect"], acts=tuple(acts), **words)


def _ours(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(COLUMNS, row, strict=True))
    settle = row_link("agenda:settle", one["pk"], OURS_SLUG)
    acts = (
        Act(_("Handed over"), settle, code="done"),
        Act(_("That was all"), settle, code="that_was_all"),
        Act(_("Move to…"), settle, code="move"),
        Act(_("Not this month"), settle, code="not_this_month"),
        Act(_("It will not be"), settle, code="never_came"),
    )
    return _line(OURS_SLUG, row, hand=Hand.MAKE, verb=_("Make for"), alone=_("Make"), why=_why(one), acts=acts)


def _why(one: dict[str, Any]) -> str:
    made_on = spelled(one["made_on"], "MONTH_DAY_FORMAT")
    if one["delivered"]:
        came = {"day": made_on, "count": f"{one['delivered']:,}"}
        rest = (one["quantity"] or 0) - one["delivered"]
        if rest > 0:
            return _("promised on %(day)s; %(count)s came, %(rest)s to come") % {**came, "rest": f"{rest:,}"}
        return _("promised on %(day)s; %(count)s came") % came
    if one["turn"] is not None:
        return _("part of a standing offer")
    return _("promised on %(day)s") % {"day": made_on}


def _open_theirs(desk: Any) -> QuerySet[Any]:
    return desk.without_amounts(desk.promises.by_them().open().of_no_trade(), "amount_cents")  # type: ignore[no-any-return]


def _open_ours(desk: Any) -> QuerySet[Any]:
    return desk.promises.by_us().open().of_no_trade()  # type: ignore[no-any-return]


def _handed_over(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    deliver(desk=desk, promise=row, day=day, quantity=row.missing)


def _was_all(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    that_was_all(desk=desk, promise=row, day=day)


def _never(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    never_came(desk=desk, promise=row, day=day)


def _move(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    move_promise(desk=desk, promise=row, due=due)


def _skip(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    skip(desk=desk, promise=row, day=day)


CLOSES = {"that_was_all": _was_all, "never_came": _never, "move": _move}

# What they bring becomes a gift, so the gifts room adds that verb and offers this source with its own.
THEIRS = DueSource(
    slug=THEIRS_SLUG,
    hand=Hand.COLLECT,
    rows=_open_theirs,
    date_field="due",
    columns=COLUMNS,
    line=_theirs,
    settle={**CLOSES, "skip": _skip},
    runs_out=True,
    splits=lambda day: {Hand.CALL: Q(collect=False, due__lt=day)},
)

SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=OURS_SLUG,
        hand=Hand.MAKE,
        rows=_open_ours,
        date_field="due",
        columns=COLUMNS,
        line=_ours,
        settle={**CLOSES, "done": _handed_over},
        runs_out=True,
    ),
)
