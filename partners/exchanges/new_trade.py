"""What the page of agreeing on a trade knows before anybody types."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import QueryDict
from django.utils.translation import gettext as _

from partners.exchanges.actions import plain_words, standing_approval
from partners.exchanges.forms import NOBODY, TradeForm
from partners.exchanges.models import Trade
from partners.program.desk import Desk
from partners.promises.models import Side
from partners.school.approval_models import Approval
from partners.school.models import School


@dataclass(frozen=True)
class SchoolsApproval:
    """Whether a school's principal has approved trades; None: to be asked."""

    school: School
    approval: Approval | None


def first_values(desk: Desk, address: QueryDict) -> dict[str, Any]:
    """From `?visit=` or `?partner=`, where the desk holds them; everything else is the usual."""
    values: dict[str, Any] = {
        "agreed_on": desk.day,
        "plain_by": Side.THEM,
        "names_on_work": _("school and grade"),
        "if_late": _("We tell each other as soon as we know, and agree on another day."),
        "attach": True,
        "partner": address.get("partner", ""),
    }
    schools = list(desk.schools[:2])
    values["school"] = schools[0] if len(schools) == 1 else None
    visit = desk.visits.filter(pk=whole(address.get("visit", ""))).first()
    if visit is not None:
        values |= {"visit": visit, "partner": visit.partner_id, "agreed_on": visit.day}
    return values


def whole(typed: str) -> int | None:
    """The number of a row, as an address says it."""
    return int(typed) if typed.isascii() and typed.isdecimal() and len(typed) < 19 else None


def of_trade(trade: Trade) -> dict[str, Any]:
    """What is agreed already, as the form shows it. The usual number and name of plain items stay worked out."""
    make, plain = trade.make, trade.plain
    values: dict[str, Any] = {"at_least": make.quantity, "at_most": make.at_most, "due": make.due}
    values |= {"carrier": make.carrier, "plain_by": NOBODY}
    if plain is not None:
        count = None if trade.spares_included else plain.quantity
        words = "" if plain.what == plain_words(trade.what) else plain.what
        own = {"plain_what": words, "plain_quantity": count, "plain_due": plain.due}
        values |= {"plain_by": plain.side, "plain_carrier": plain.carrier, **own}
    return values


def page(desk: Desk, form: TradeForm) -> dict[str, Any]:
    """The context of exchanges/trade_form.html."""
    known = [SchoolsApproval(one, standing_approval(desk, one, desk.day)) for one in desk.schools]
    return {"form": form, "approvals": known}
