"""Thanks to say, and whom a gift still has to pass; what partners promised, since it comes as a gift."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import Func, QuerySet, Subquery
from django.utils.translation import gettext_noop

from partners.exchanges.due import GIVES
from partners.gifts.actions import (
    accept,
    hand_in,
    move_acceptance,
    move_return,
    receive_promised,
    return_loan,
)
from partners.gifts.dates import families_since
from partners.gifts.families import all_families
from partners.gifts.family_actions import due_to_families, families_thanked, thank_families_later
from partners.gifts.letter_links import families_url, letter_url
from partners.gifts.models import MoneyKind, Source, ThanksFor
from partners.gifts.thanks_actions import said_along, thanks_said
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import page_link, row_link
from partners.ground.money import format_cents
from partners.ground.words import gettext as _
from partners.promises.due import THEIRS

THANKS, ACCEPT, RETURN, HAND_IN = "gifts.thanks", "gifts.accept", "gifts.return", "gifts.hand-in"
FAMILIES = "gifts.families"

WHOM = ("partner_id", "partner__name", "partner__phone", "school_id", "school__name")
FOR_THANKS = (
    "reason",
    "base",
    "late_from",
    "gift_id",
    "gift__amount_cents",
    "first_line",
    "promise__what",
    "ask__what",
    "grant__title",
)
FOR_GIFT = ("source", "day", "amount_cents", "money_kind", "first_line", "accept_by_whom")

MOVE = gettext_noop("Move to…")
NOT_THIS_MONTH = gettext_noop("Not this month")


def _thanks(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(("pk", "due", *FOR_THANKS, *WHOM), row, strict=True))
    acts = (
        Act(_("Write the letter"), letter_url(one["gift_id"], one["pk"]), opens=True),
        Act(_("Said in person"), _settle(THANKS, one["pk"]), code="done"),
    )
    told = one["first_line"] or one["promise__what"] or one["ask__what"] or one["grant__title"]
    what = _what(one["gift__amount_cents"], told)
    verb, why = THANKED[one["reason"]]
    why = _(why) % {"day": spelled(one["base"], "MONTH_DAY_FORMAT")}
    given = {"verb": _(verb), "what": what, "why": why, "late_from": one["late_from"], "acts": acts}
    return _line(THANKS, Hand.WRITE, one, **given)


THANKED: dict[str, tuple[str, str]] = {
    ThanksFor.GIFT: (gettext_noop("Thank"), gettext_noop("it came on %(day)s")),
    ThanksFor.PROMISE: (gettext_noop("Thank"), gettext_noop("for the promise of %(day)s")),
    ThanksFor.CONSIDERING: (gettext_noop("Thank for considering"), gettext_noop("they answered on %(day)s")),
    ThanksFor.GRANT: (gettext_noop("Thank for the grant"), gettext_noop("they awarded it on %(day)s")),
}


def _families(row: tuple[Any, ...], day: date) -> DueLine:
    """One notice of a school for all that came from its families since the last one."""
    pk, due, base, first_line, often, school_id, school = row
    settle = _settle(FAMILIES, pk)
    acts = (
        Act(_("Thanks to all families"), families_url(school_id), opens=True),
        Act(_("Thanked another way"), settle, code="done"),
        Act(_(MOVE), settle, code="move"),
        Act(_(NOT_THIS_MONTH), settle, code="not_this_month"),
    )
    what = first_line or _("money")
    if often > 1:
        what = _("%(what)s and %(count)d more") % {"what": what, "count": often - 1}
    why = _("since %(day)s") % {"day": spelled(base, "MONTH_DAY_FORMAT")}
    return DueLine(
        source=FAMILIES,
        pk=pk,
        due=due,
        hand=Hand.WRITE,
        verb=_("Thank"),
        alone=_("Thank for"),
        who=all_families(school),
        who_url=page_link("gifts:family-list"),
        what=what,
        why=why,
        school_id=school_id,
        acts=acts,
    )


def _accept(row: tuple[Any, ...], day: date) -> DueLine:
    one = _gift(row)
    facts = {"what": _what(one["amount_cents"], one["first_line"]), "giver": _giver(one)}
    acts = (
        Act(_("Accepted"), _settle(ACCEPT, one["pk"]), code="done"),
        Act(_(MOVE), _settle(ACCEPT, one["pk"]), code="move"),
        Act(_(NOT_THIS_MONTH), _settle(ACCEPT, one["pk"]), code="not_this_month"),
    )
    what = _("to accept %(what)s from %(giver)s") % facts
    asked = {"who": one["accept_by_whom"], "who_url": _gift_url(one["pk"]), "phone": ""}
    return _line(ACCEPT, Hand.ASK, one, verb=_("Ask"), what=what, why=_came(one), acts=acts, **asked)


def _return(row: tuple[Any, ...], day: date) -> DueLine:
    one = _gift(row)
    acts = (
        Act(_("Returned"), _settle(RETURN, one["pk"]), code="done"),
        Act(_(MOVE), _settle(RETURN, one["pk"]), code="move"),
        Act(_(NOT_THIS_MONTH), _settle(RETURN, one["pk"]), code="not_this_month"),
    )
    why = _("lent on %(day)s") % {"day": spelled(one["day"], "MONTH_DAY_FORMAT")}
    what = _what(None, one["first_line"])
    return _line(RETURN, Hand.CALL, one, verb=_("Return to"), alone=_("Return"), what=what, why=why, acts=acts)


def _hand_in(row: tuple[Any, ...], day: date) -> DueLine:
    one = _gift(row)
    acts = (
        Act(_("Handed in"), _settle(HAND_IN, one["pk"]), code="done"),
        Act(_("With a receipt number"), f"{_gift_url(one['pk'])}#hand-in", opens=True),
    )
    kind = MoneyKind(one["money_kind"]).label if one["money_kind"] else _("money")
    what = _("%(amount)s, %(kind)s") % {"amount": format_cents(one["amount_cents"]), "kind": kind}
    return _line(HAND_IN, Hand.MONEY, one, verb=_("Hand to the office:"), what=what, why=_came(one), acts=acts)


def _gift(row: tuple[Any, ...]) -> dict[str, Any]:
    return dict(zip(("pk", "due", *FOR_GIFT, *WHOM), row, strict=True))


def _line(source: str, hand: Hand, one: dict[str, Any], **given: Any) -> DueLine:
    own = {
        "who": _giver(one),
        "who_url": row_link("directory:partner-detail", one["partner_id"]) if one["partner_id"] else "",
        "phone": one["partner__phone"] or "",
        **given,
    }
    where = {"partner_id": one["partner_id"], "school_id": one["school_id"], "school": one["school__name"] or ""}
    return DueLine(source=source, pk=one["pk"], due=one["due"], hand=hand, **own, **where)


def _giver(one: dict[str, Any]) -> str:
    return str(one["partner__name"] or Source(one["source"]).label)


def _what(amount_cents: int | None, words: str | None) -> str:
    return format_cents(amount_cents) if amount_cents is not None else words or ""


def _came(one: dict[str, Any]) -> str:
    return _("it came on %(day)s") % {"day": spelled(one["day"], "MONTH_DAY_FORMAT")}


def _settle(slug: str, pk: int) -> str:
    return row_link("agenda:settle", pk, slug)


def _gift_url(pk: int) -> str:
    return row_link("gifts:gift-detail", pk)


def _owed(desk: Any) -> QuerySet[Any]:
    rows = desk.without_amounts(desk.thanks.owed(), "gift__amount_cents")
    return rows.with_first_line()  # type: ignore[no-any-return]


def _to_families(desk: Any) -> QuerySet[Any]:
    since = families_since(desk.day)
    beside = desk.gifts.families_to_thank(since).of_the_same_school()
    often = Subquery(beside.annotate(often=Func("pk", function="COUNT")).values("often"))
    return desk.gifts.first_of_each_school(since).with_first_line().annotate(often=often)  # type: ignore[no-any-return]


def _to_accept(desk: Any) -> QuerySet[Any]:
    return desk.without_amounts(desk.gifts.to_accept(), "amount_cents").with_first_line()  # type: ignore[no-any-return]


def _to_return(desk: Any) -> QuerySet[Any]:
    return desk.gifts.to_return().with_first_line()  # type: ignore[no-any-return]


def _to_hand_in(desk: Any) -> QuerySet[Any]:
    return desk.without_amounts(desk.gifts.to_hand_in(), "amount_cents").with_first_line()  # type: ignore[no-any-return]


def _all_came(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    receive_promised(desk=desk, promise=row, day=day)


def _said(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    thanks_said(desk=desk, thanks=row, day=day, how=_("in person"))


def _families_thanked(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    families_thanked(desk=desk, school=row.school, gifts=due_to_families(desk, row.school), day=day)


def _families_later(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    thank_families_later(desk=desk, school=row.school, due=due)


def _accepted(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    accept(desk=desk, gift=row, day=day)


def _accept_later(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    move_acceptance(desk=desk, gift=row, due=due)


def _returned(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    return_loan(desk=desk, gift=row, day=day)


def _return_later(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    move_return(desk=desk, gift=row, due=due)


def _handed_in(*, desk: Any, row: Any, day: date, receipt_number: str = "", **_extra: Any) -> None:
    hand_in(desk=desk, gift=row, day=day, receipt_number=receipt_number)


def _gifts(
    slug: str, hand: Hand, rows: Callable[[Any], QuerySet[Any]], column: str, line: Any, **settle: Any
) -> DueSource:
    columns = ("pk", column, *FOR_GIFT, *WHOM)
    return DueSource(slug=slug, hand=hand, rows=rows, date_field=column, columns=columns, line=line, settle=settle)


SOURCES: tuple[DueSource, ...] = (
    replace(THEIRS, settle={**THEIRS.settle, "done": _all_came}),
    replace(GIVES, settle={**GIVES.settle, "done": _all_came}),
    DueSource(
        slug=THANKS,
        hand=Hand.WRITE,
        rows=_owed,
        date_field="due",
        columns=("pk", "due", *FOR_THANKS, *WHOM),
        line=_thanks,
        settle={"done": _said},
        along=said_along,
    ),
    DueSource(
        slug=FAMILIES,
        hand=Hand.WRITE,
        rows=_to_families,
        date_field="families_due",
        columns=("pk", "families_due", "day", "first_line", "often", "school_id", "school__name"),
        line=_families,
        settle={"done": _families_thanked, "move": _families_later},
        by=lambda desk: families_since(desk.day),
    ),
    _gifts(ACCEPT, Hand.ASK, _to_accept, "accept_due", _accept, done=_accepted, move=_accept_later),
    _gifts(RETURN, Hand.CALL, _to_return, "return_on", _return, done=_returned, move=_return_later),
    _gifts(HAND_IN, Hand.MONEY, _to_hand_in, "hand_in_due", _hand_in, done=_handed_in),
)
