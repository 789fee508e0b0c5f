"""Sessions to confirm, to find more helpers for, to count and to thank for; kits at home; clearances that run out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.db.models import QuerySet
from django.utils.translation import ngettext

from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.plain import PlainError, gettext_noop
from partners.ground.words import gettext as _
from partners.helpers import actions, kit_actions, session_actions
from partners.helpers.jobs import Job

WEEK, DAY, SHORT, COUNT, THANKS = (f"helpers.{name}" for name in ("week", "day", "short", "count", "thanks"))
KIT, CLEARANCE = "helpers.kit", "helpers.clearance"
SESSION = ("day", "job", "place", "needed", "said_yes", "school_id", "school__name")


def _session(source: str, row: Sequence[Any], **own: Any) -> DueLine:
    one = dict(zip(("pk", "due", *SESSION), row, strict=True))
    page = row_link("helpers:session-detail", one["pk"])
    return DueLine(
        source=source,
        pk=one["pk"],
        due=one["due"],
        who=_("%(job)s, %(day)s") % {"job": Job(one["job"]).label, "day": _spelled(one["day"])},
        who_url=page,
        what=one["place"],
        school_id=one["school_id"],
        school=one["school__name"] or "",
        alone=f"{own['verb']}:",
        **own,
    )


def _spelled(day: date) -> str:
    return spelled(day, "MONTH_DAY_FORMAT")


def _open_page(label: str, name: str, row: tuple[Any, ...]) -> Act:
    return Act(label, row_link(name, row[0]), opens=True)


def _week(row: tuple[Any, ...], day: date) -> DueLine:
    acts = (
        _open_page(_("Who comes"), "helpers:session-detail", row),
        Act(_("All know"), row_link("agenda:settle", row[0], WEEK), code="done"),
    )
    why = _yes_words(row)
    return _session(WEEK, row, hand=Hand.CALL, verb=_("Confirm with the helpers"), why=why, acts=acts)


def _day(row: tuple[Any, ...], day: date) -> DueLine:
    acts = (
        _open_page(_("Who comes"), "helpers:session-detail", row),
        Act(_("All know"), row_link("agenda:settle", row[0], DAY), code="done"),
    )
    why = _yes_words(row)
    return _session(DAY, row, hand=Hand.CALL, verb=_("Remind the helpers"), why=why, acts=acts)


def _yes_words(row: Sequence[Any]) -> str:
    yes = row[2 + SESSION.index("said_yes")]
    return ngettext("%(count)d said yes", "%(count)d said yes", yes) % {"count": yes}


def _short(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(SESSION, row[2:], strict=True))
    short = one["needed"] - one["said_yes"]
    why = ngettext("%(count)d helper short", "%(count)d helpers short", short) % {"count": short}
    acts = [_open_page(_("Whom to ask"), "helpers:session-ask", row)]
    if one["said_yes"]:
        acts.append(Act(_("So many will do"), row_link("agenda:settle", row[0], SHORT), code="done"))
    return _session(SHORT, row, hand=Hand.CALL, verb=_("Find more helpers"), why=why, acts=tuple(acts))


def _count(row: tuple[Any, ...], day: date) -> DueLine:
    *known, starts = row
    acts = (
        _open_page(_("Who is here"), "helpers:session-check-in", row),
        Act(_("All came"), row_link("agenda:settle", row[0], COUNT), code="done"),
        Act(_("It did not take place"), row_link("agenda:settle", row[0], COUNT), code="never_came"),
    )
    own: dict[str, Any] = {"hour": starts, "verb": _("Note who came"), "why": _yes_words(known), "acts": acts}
    return _session(COUNT, known, hand=Hand.WRITE, **own)


def _thanks(row: tuple[Any, ...], day: date) -> DueLine:
    acts = (
        Act(_("All thanked"), row_link("agenda:settle", row[0], THANKS), code="done"),
        _open_page(_("Who came"), "helpers:session-detail", row),
    )
    why = _("on the day, while they are there") if day <= row[1] else ""
    return _session(THANKS, row, hand=Hand.WRITE, verb=_("Thank the helpers"), why=why, acts=acts)


def _kit(row: tuple[Any, ...], day: date) -> DueLine:
    pk, due, what, quantity, out_on, helper_id, helper, school_id, school = row
    settle = row_link("agenda:settle", pk, KIT)
    return DueLine(
        source=KIT,
        pk=pk,
        due=due,
        hand=Hand.CALL,
        verb=_("Kit back from"),
        alone=_("Kit back:"),
        who=helper or _("a helper"),
        who_url=row_link("helpers:helper-detail", helper_id),
        what=f"{quantity:,} {what}" if quantity else what,
        why=_("taken home on %(day)s") % {"day": _spelled(out_on)},
        school_id=school_id,
        school=school or "",
        acts=(
            _open_page(_("It is back"), "helpers:kit-back", row),
            Act(_("All of it came"), settle, code="done"),
            Act(_("Move to…"), settle, code="move"),
            Act(_("Not this month"), settle, code="not_this_month"),
        ),
    )


def _clearance(row: tuple[Any, ...], day: date) -> DueLine:
    pk, until, name, by, school_id, school = row
    return DueLine(
        source=CLEARANCE,
        pk=pk,
        due=until,
        hand=Hand.ASK,
        verb=_("Ask the office about"),
        who=name,
        who_url=row_link("helpers:helper-detail", pk),
        what=_("clearance"),
        why=_("it ends on its day; confirmed by %(name)s") % {"name": by} if by else _("it ends on its day"),
        school_id=school_id,
        school=school or "",
        acts=(
            _open_page(_("Write down the new one"), "helpers:helper-clearance", row),
            Act(_("Not renewed"), row_link("agenda:settle", pk, CLEARANCE), code="done"),
        ),
    )


def _to_confirm_week(desk: Any) -> QuerySet[Any]:
    return desk.sessions.filter(week_due__isnull=False, week_done_on=None, called_off_on=None)  # type: ignore[no-any-return]


def _to_confirm_day(desk: Any) -> QuerySet[Any]:
    return desk.sessions.filter(day_due__isnull=False, day_done_on=None, called_off_on=None)  # type: ignore[no-any-return]


def _too_few(desk: Any) -> QuerySet[Any]:
    return desk.sessions.filter(short_due__isnull=False)  # type: ignore[no-any-return]


def _to_count(desk: Any) -> QuerySet[Any]:
    return desk.sessions.filter(counted_on=None, called_off_on=None)  # type: ignore[no-any-return]


def _to_thank(desk: Any) -> QuerySet[Any]:
    return desk.sessions.filter(thanks_due__isnull=False)  # type: ignore[no-any-return]


def _kits_out(desk: Any) -> QuerySet[Any]:
    return desk.kits.filter(back_on=None)  # type: ignore[no-any-return]


def _running_out(desk: Any) -> QuerySet[Any]:
    return desk.helpers.filter(cleared_until__isnull=False, cleared=True, stopped_on=None, forgotten_on=None)  # type: ignore[no-any-return]


def _week_done(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    session_actions.confirm_week(desk=desk, session=row, day=day)


def _day_done(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    session_actions.confirm_day(desk=desk, session=row, day=day)


def _enough(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    if not row.said_yes:
        raise PlainError("nobody", gettext_noop("Nobody said yes yet. Ask somebody, or call the session off."))
    session_actions.edit_session(desk=desk, session=row, needed=row.said_yes)


def _all_came(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    session_actions.all_came(desk=desk, session=row)
    session_actions.count(desk=desk, session=row, day=day)


def _called_off(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    session_actions.call_off(desk=desk, session=row, day=day)


def _all_thanked(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    session_actions.thank(desk=desk, session=row, day=day)


def _kit_is_back(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    kit_actions.kit_back(desk=desk, kit=row, day=day)


def _move_kit(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    kit_actions.move_kit(desk=desk, kit=row, due=due)


def _not_renewed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.clear(desk=desk, helper=row, cleared=False)


def _of_sessions(
    slug: str, hand: Hand, rows: Any, name: str, line: Any, settle: dict[str, Any], *, hour: tuple[str, ...] = ()
) -> DueSource:
    columns = ("pk", name, *SESSION, *hour)
    return DueSource(
        slug=slug, hand=hand, rows=rows, date_field=name, columns=columns, line=line, settle=settle, runs_out=bool(hour)
    )


SOURCES: tuple[DueSource, ...] = (
    _of_sessions(WEEK, Hand.CALL, _to_confirm_week, "week_due", _week, {"done": _week_done}),
    _of_sessions(DAY, Hand.CALL, _to_confirm_day, "day_due", _day, {"done": _day_done}),
    _of_sessions(SHORT, Hand.CALL, _too_few, "short_due", _short, {"done": _enough}),
    _of_sessions(
        COUNT, Hand.WRITE, _to_count, "day", _count, {"done": _all_came, "never_came": _called_off}, hour=("starts",)
    ),
    _of_sessions(THANKS, Hand.WRITE, _to_thank, "thanks_due", _thanks, {"done": _all_thanked}),
    DueSource(
        slug=KIT,
        hand=Hand.CALL,
        rows=_kits_out,
        date_field="due",
        columns=("pk", "due", "what", "quantity", "out_on", "helper_id", "helper__name", "school_id", "school__name"),
        line=_kit,
        settle={"done": _kit_is_back, "move": _move_kit},
    ),
    DueSource(
        slug=CLEARANCE,
        hand=Hand.ASK,
        rows=_running_out,
        date_field="cleared_until",
        columns=("pk", "cleared_until", "name", "cleared_by", "school_id", "school__name"),
        line=_clearance,
        settle={"done": _not_renewed},
    ),
)
