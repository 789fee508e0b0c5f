"""Free days: to confirm four weeks before, to go to on their day, and to say afterwards whether anybody went."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Q, QuerySet

from partners.funding import occasion_actions as actions
from partners.funding.occasion_words import day_words, hours_words, to_take
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _

CONFIRM, GO = "funding.confirm", "funding.go"
COLUMNS = (
    "title", "place", "next_on", "opens_at", "closes_at", "bring", "limits", "proof", "told_by", "confirm_by",
    "confirmed_on", "partner_id", "partner__name", "partner__phone",
)  # fmt: skip


def _line(source: str, row: tuple[Any, ...], **own: Any) -> DueLine:
    one = dict(zip(("pk", "due", *COLUMNS), row, strict=True))
    return DueLine(
        source=source,
        pk=one["pk"],
        due=one["due"],
        who=one["title"],
        who_url=row_link("funding:occasion-detail", one["pk"]),
        partner_id=one["partner_id"],
        phone=one["partner__phone"] or "",
        **own,
    )


def _confirm(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(("pk", "due", *COLUMNS), row, strict=True))
    settle = row_link("agenda:settle", one["pk"], CONFIRM)
    acts = (
        Act(_("It takes place"), settle, code="done"),
        Act(_("Not this time"), settle, code="never_came"),
        Act(_("Its page"), row_link("funding:occasion-detail", one["pk"]), opens=True),
    )
    where = one["partner__name"] or one["place"]
    why = _("ask at %(place)s whether it takes place, and what is new") % {"place": where} if where else ""
    if not one["partner__phone"] and one["told_by"]:
        why = _("%(name)s told us of it") % {"name": one["told_by"]}
    return _line(CONFIRM, row, hand=Hand.CALL, verb=_("Confirm"), what=day_words(one["next_on"]), why=why, acts=acts)


def _go(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(("pk", "due", *COLUMNS), row, strict=True))
    acts = (
        Act(_("We went"), row_link("funding:occasion-went", one["pk"]), opens=True),
        Act(_("We did not go"), row_link("agenda:settle", one["pk"], GO), code="never_came"),
    )
    where = ", ".join(part for part in (one["place"] or one["partner__name"] or "", _hours(one)) if part)
    if one["due"] < day:
        own = {"hand": Hand.WRITE, "verb": _("Did you go?"), "what": where, "why": _("and what did you get")}
        return _line(GO, row, acts=acts, **own)
    own = {"hand": Hand.COLLECT, "verb": _("Go to"), "what": where, "why": _on_the_day(one)}
    return _line(GO, row, acts=acts, hour=one["opens_at"], **own)


def _hours(one: dict[str, Any]) -> str:
    return hours_words(one["opens_at"], one["closes_at"])


def _on_the_day(one: dict[str, Any]) -> str:
    known = to_take(one)
    if one["confirm_by"] is not None and one["confirmed_on"] is None:
        return "; ".join(part for part in (_("nobody confirmed it yet"), known) if part)
    return known


def _to_confirm(desk: Any) -> QuerySet[Any]:
    """Those whose day is still ahead; afterwards the question is another."""
    ahead = {"confirm_by__isnull": False, "confirmed_on": None, "ended_on": None, "next_on__gte": desk.day}
    return desk.occasions.filter(**ahead)  # type: ignore[no-any-return]


def _to_go(desk: Any) -> QuerySet[Any]:
    return desk.occasions.filter(next_on__isnull=False, ended_on=None)  # type: ignore[no-any-return]


def _takes_place(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.confirm(desk=desk, occasion=row, day=day)


def _not_this_time(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.not_this_time(desk=desk, occasion=row, day=day)


SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=CONFIRM,
        hand=Hand.CALL,
        rows=_to_confirm,
        date_field="confirm_by",
        columns=("pk", "confirm_by", *COLUMNS),
        line=_confirm,
        settle={"done": _takes_place, "never_came": _not_this_time},
        by=lambda desk: desk.day,
    ),
    DueSource(
        slug=GO,
        hand=Hand.COLLECT,
        rows=_to_go,
        date_field="next_on",
        columns=("pk", "next_on", *COLUMNS),
        line=_go,
        settle={"never_came": _not_this_time},
        runs_out=True,
        splits=lambda day: {Hand.WRITE: Q(next_on__lt=day)},
    ),
)
