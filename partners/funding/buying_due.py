"""Receipts to hand in, money to have back, tax to ask back, certificates that end."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from django.db.models import QuerySet
from django.urls import reverse
from django.utils.translation import gettext_noop

from partners.funding import buying_actions as actions
from partners.funding.certificate_actions import end_certificate
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.money import format_cents
from partners.ground.words import gettext as _

HAND_IN, REPAID = "funding.receipt", "funding.repaid"
TAX_BACK, CERTIFICATE = "funding.tax-back", "funding.certificate"

WHOM = (
    "vendor",
    "what",
    "total_cents",
    "tax_cents",
    "tax_back_cents",
    "bought_on",
    "handed_in_on",
    "partner_id",
    "school_id",
    "school__name",
)
OF_CERTIFICATE = ("state", "number", "school_id", "school__name")

MOVE = gettext_noop("Move to…")
NOT_THIS_MONTH = gettext_noop("Not this month")


def _purchase(row: tuple[Any, ...]) -> dict[str, Any]:
    return dict(zip(("pk", "due", *WHOM), row, strict=True))


def _acts(slug: str, pk: int, *first: Act) -> tuple[Act, ...]:
    return (
        *first,
        Act(_(MOVE), _settle(slug, pk), code="move"),
        Act(_(NOT_THIS_MONTH), _settle(slug, pk), code="not_this_month"),
    )


def _hand_in(row: tuple[Any, ...], day: date) -> DueLine:
    one = _purchase(row)
    acts = _acts(HAND_IN, one["pk"], Act(_("Handed in"), _settle(HAND_IN, one["pk"]), code="done"))
    what = _("the receipt: %(what)s, %(amount)s") % _named(one, "total_cents")
    return _line(HAND_IN, one, verb=_("Hand in"), what=what, why=_bought(one), acts=acts)


def _repaid(row: tuple[Any, ...], day: date) -> DueLine:
    one = _purchase(row)
    one["own_cents"] = (one["total_cents"] or 0) - (one["tax_back_cents"] or 0)
    page = f"{_page(one['pk'])}#repaid"
    opened = Act(_("With another amount"), page, opens=True)
    acts = _acts(REPAID, one["pk"], Act(_("Repaid in full"), _settle(REPAID, one["pk"]), code="done"), opened)
    acts += (Act(_("Not asked back"), _settle(REPAID, one["pk"]), code="let_go"),)
    what = _("%(amount)s of your own money: %(what)s") % _named(one, "own_cents")
    since = one["handed_in_on"] or one["bought_on"]
    why = _("handed in on %(day)s") % {"day": spelled(since, "MONTH_DAY_FORMAT")} if since else ""
    return _line(REPAID, one, verb=_("Have repaid"), what=what, why=why, acts=acts)


def _tax_back(row: tuple[Any, ...], day: date) -> DueLine:
    one = _purchase(row)
    acts = _acts(TAX_BACK, one["pk"], Act(_("It came back"), _settle(TAX_BACK, one["pk"]), code="done"))
    acts += (Act(_("Let it go"), _settle(TAX_BACK, one["pk"]), code="let_go"),)
    what = _("%(amount)s of tax: %(what)s") % _named(one, "tax_cents")
    why = _("charged on %(day)s although a certificate was shown") % {
        "day": spelled(one["bought_on"], "MONTH_DAY_FORMAT")
    }
    return _line(TAX_BACK, one, verb=_("Ask back from"), alone=_("Ask back"), what=what, why=why, acts=acts)


def _certificate(row: tuple[Any, ...], day: date) -> DueLine:
    one = dict(zip(("pk", "due", *OF_CERTIFICATE), row, strict=True))
    renew = f"{reverse('funding:certificate-new')}?follows={one['pk']}"
    acts = (
        Act(_("Renew"), renew, opens=True),
        Act(_("Not needed again"), _settle(CERTIFICATE, one["pk"]), code="done"),
    )
    what = _("the exemption certificate for %(state)s: %(number)s") % {"state": one["state"], "number": one["number"]}
    return DueLine(
        source=CERTIFICATE, pk=one["pk"], due=one["due"], hand=Hand.ASK, verb=_("Renew"), what=what,
        why=_("it ends on that day"), who=_("the business office"),
        who_url=row_link("funding:certificate-edit", one["pk"]),
        school_id=one["school_id"], school=one["school__name"] or "", acts=acts,
    )  # fmt: skip


def _named(one: dict[str, Any], column: str) -> dict[str, str]:
    return {"what": one["what"], "amount": format_cents(one[column] or 0)}


def _bought(one: dict[str, Any]) -> str:
    return _("bought on %(day)s") % {"day": spelled(one["bought_on"], "MONTH_DAY_FORMAT")}


def _line(source: str, one: dict[str, Any], **given: Any) -> DueLine:
    where = {"partner_id": one["partner_id"], "school_id": one["school_id"], "school": one["school__name"] or ""}
    who = {"who": one["vendor"], "who_url": _page(one["pk"])}
    return DueLine(source=source, pk=one["pk"], due=one["due"], hand=Hand.MONEY, **who, **given, **where)


def _page(pk: int) -> str:
    return row_link("funding:purchase-detail", pk)


def _settle(slug: str, pk: int) -> str:
    return row_link("agenda:settle", pk, slug)


def _to_hand_in(desk: Any) -> QuerySet[Any]:
    return desk.purchases.to_hand_in()  # type: ignore[no-any-return]


def _to_repay(desk: Any) -> QuerySet[Any]:
    """Who paid out of their own pocket is not for guests to read."""
    rows = desk.purchases.to_repay()
    return rows if desk.writes else rows.none()  # type: ignore[no-any-return]


def _tax_to_ask(desk: Any) -> QuerySet[Any]:
    return desk.purchases.tax_to_ask_back()  # type: ignore[no-any-return]


def _ending(desk: Any) -> QuerySet[Any]:
    return desk.certificates.ending()  # type: ignore[no-any-return]


def _handed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.hand_in(desk=desk, purchase=row, day=day)


def _all_repaid(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.repay(desk=desk, purchase=row, day=day, cents=row.own_cents)


def _not_asked(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.not_ask_back(desk=desk, purchase=row)


def _all_tax(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.tax_came_back(desk=desk, purchase=row, day=day, cents=row.tax_cents)


def _tax_gone(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.let_tax_go(desk=desk, purchase=row)


def _not_needed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    end_certificate(desk=desk, certificate=row)


def _moved(verb: Callable[..., Any]) -> Callable[..., None]:
    def moved(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
        verb(desk=desk, purchase=row, due=due)

    return moved


def _money(slug: str, rows: Any, column: str, line: Any, **settle: Any) -> DueSource:
    columns = ("pk", column, *WHOM)
    return DueSource(
        slug=slug, hand=Hand.MONEY, rows=rows, date_field=column, columns=columns, line=line, settle=settle
    )


SOURCES: tuple[DueSource, ...] = (
    _money(HAND_IN, _to_hand_in, "claim_due", _hand_in, done=_handed, move=_moved(actions.move_claim)),
    _money(
        REPAID, _to_repay, "repay_due", _repaid,
        done=_all_repaid, let_go=_not_asked, move=_moved(actions.move_repayment),
    ),
    _money(
        TAX_BACK, _tax_to_ask, "tax_back_due", _tax_back,
        done=_all_tax, let_go=_tax_gone, move=_moved(actions.move_tax_back),
    ),
    DueSource(
        slug=CERTIFICATE,
        hand=Hand.ASK,
        rows=_ending,
        date_field="valid_until",
        columns=("pk", "valid_until", *OF_CERTIFICATE),
        line=_certificate,
        settle={"done": _not_needed},
    ),
)  # fmt: skip
