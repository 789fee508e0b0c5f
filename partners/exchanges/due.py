"""What falls due of trades, on both sides: plain items, the work of the classes, deliveries; papers and the show."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import Exists, OuterRef, Q, QuerySet

from partners.exchanges import count_actions
from partners.exchanges.due_papers import SOURCES as PAPERS
from partners.exchanges.due_shape import DAY, WHOM, line_of, moves, settle_at
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import page_link, row_link
from partners.ground.words import gettext as _
from partners.promises.counted import counted
from partners.promises.models import Part, Side

START, MAKE, PLAIN, GIVE = "exchanges.start", "exchanges.make", "exchanges.plain", "exchanges.give"
OF_PART = (
    "pk", "due", "due_hour", "side", "what", "quantity", "at_most", "unit", "delivered", "made_on", "trade_id",
    "trade__what", *WHOM,
)  # fmt: skip
OF_CLASS = (
    "pk", "start_on", "trade_id", "trade__what", "trade__partner_id", "trade__partner__name", "share", "done",
    "lessons", "school_class__label", "school_class__school_id", "school_class__school__name",
)  # fmt: skip


# Classes


def _start(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(OF_CLASS, row, strict=True))
    facts = {"count": one["share"] - one["done"], "what": one["trade__what"], "lessons": one["lessons"]}
    acts = (
        Act(_("It began"), settle_at(START, one["pk"]), code="done"),
        Act(_("Count what is done"), row_link("exchanges:trade-progress", one["trade_id"]), opens=True),
        Act(_("The plan"), row_link("exchanges:trade-plan", one["trade_id"]), opens=True),
    )
    return DueLine(
        source=START,
        pk=one["pk"],
        due=one["start_on"],
        hand=Hand.MAKE,
        verb=_("Begin with"),
        who=one["school_class__label"],
        who_url=row_link("exchanges:trade-detail", one["trade_id"]),
        what=_("%(count)s %(what)s") % facts,
        why=_("for %(partner)s; the last lesson to begin, %(lessons)s needed")
        % {"partner": one["trade__partner__name"], **facts},
        partner_id=one["trade__partner_id"],
        school_id=one["school_class__school_id"],
        school=one["school_class__school__name"],
        acts=acts,
    )


def _to_start(desk: Any) -> QuerySet[Any]:
    """Classes whose last day to begin is known, of trades that still owe what they make."""
    rows = desk.trade_classes.filter(start_on__isnull=False, started_on=None, trade__called_off_on=None)
    if desk.school_ids:
        rows = rows.filter(school_class__school__in=desk.school_ids)
    owed = desk.program.promises.filter(trade=OuterRef("trade"), part=Part.MAKE, settled_on=None)
    found: QuerySet[Any] = rows.filter(Exists(owed))
    return found


def _begin(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    count_actions.start_class(desk=desk, trade_class=row, day=day)


# Promises of both sides


def _part(source: str, row: tuple[Any, ...], hand: Hand, verbs: tuple[Any, Any], acts: tuple[Act, ...]) -> DueLine:
    """`verbs`: before whom it is about, and before what it is alone."""
    one = dict(zip(OF_PART, row, strict=True))
    what = counted(one["quantity"], one["unit"], one["what"], one["at_most"])
    facts = {"trade": one["trade__what"], "day": spelled(one["made_on"], DAY), "count": f"{one['delivered']:,}"}
    why = _("trade of %(day)s; %(count)s so far") if one["delivered"] else _("trade of %(day)s: %(trade)s")
    own = {"verb": verbs[0], "alone": verbs[1], "what": what, "why": why % facts}
    return line_of(source, hand, one, hour=one["due_hour"], acts=acts, **own)


def _make(row: tuple[Any, ...], day: date) -> DueLine:
    settle, page = settle_at(MAKE, row[0]), row_link("exchanges:trade-detail", row[OF_PART.index("trade_id")])
    acts = (
        Act(_("All handed over"), settle, code="done"),
        Act(_("A part of it"), page, opens=True),
        Act(_("That was all"), settle, code="that_was_all"),
        *moves(settle),
        Act(_("It will not be"), settle, code="never_came"),
    )
    return _part(MAKE, row, Hand.MAKE, (_("Deliver to"), _("Deliver")), acts)


def _plain(row: tuple[Any, ...], day: date) -> DueLine:
    settle, page = settle_at(PLAIN, row[0]), row_link("exchanges:trade-detail", row[OF_PART.index("trade_id")])
    theirs = row[OF_PART.index("side")] == Side.THEM
    acts = (
        Act(_("All of them came") if theirs else _("They are here"), settle, code="done"),
        Act(_("A part of them"), page, opens=True),
        Act(_("That was all"), settle, code="that_was_all"),
        *moves(settle),
        Act(_("They never came") if theirs else _("It will not be"), settle, code="never_came"),
    )
    if theirs:
        return _part(PLAIN, row, Hand.COLLECT, (_("Plain items from"), _("Collect")), acts)
    return _part(PLAIN, row, Hand.MAKE, (_("Get plain items, for"), _("Get")), acts)


def _give(row: tuple[Any, ...], day: date) -> DueLine:
    settle = settle_at(GIVE, row[0])
    acts = (
        Act(_("Something arrived"), f"{page_link('gifts:gift-new')}?promise={row[0]}", opens=True),
        Act(_("All of it came"), settle, code="done"),
        Act(_("That was all"), settle, code="that_was_all"),
        Act(_("It never came"), settle, code="never_came"),
        *moves(settle),
    )
    return _part(GIVE, row, Hand.COLLECT, (_("Collect from"), _("Collect")), acts)


def _open(part: str) -> Any:
    return lambda desk: desk.promises.open().part(part)


def _delivered(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    count_actions.deliver_part(desk=desk, promise=row, day=day, quantity=row.missing)


def _was_all(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    count_actions.close_part(desk=desk, promise=row, day=day, all_of_it=True)


def _never(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    count_actions.close_part(desk=desk, promise=row, day=day, all_of_it=False)


def _move(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    count_actions.move_part(desk=desk, promise=row, due=due)


CLOSES = {"that_was_all": _was_all, "never_came": _never, "move": _move}


def _part_source(slug: str, hand: Hand, line: Any, part: str, settle: dict[str, Any]) -> DueSource:
    return DueSource(
        slug=slug, hand=hand, rows=_open(part), date_field="due", columns=OF_PART, line=line, settle=settle,
        runs_out=True,
    )  # fmt: skip


# What they give becomes a gift, so the gifts room adds that verb and offers this source with its own.
GIVES = _part_source(GIVE, Hand.COLLECT, _give, Part.GIVE, CLOSES)

SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=START, hand=Hand.MAKE, rows=_to_start, date_field="start_on", columns=OF_CLASS, line=_start,
        settle={"done": _begin},
    ),
    _part_source(MAKE, Hand.MAKE, _make, Part.MAKE, {**CLOSES, "done": _delivered}),
    replace(
        _part_source(PLAIN, Hand.COLLECT, _plain, Part.PLAIN, {**CLOSES, "done": _delivered}),
        splits=lambda day: {Hand.MAKE: Q(side=Side.US)},
    ),
    *PAPERS,
)  # fmt: skip
