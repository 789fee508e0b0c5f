"""What the page of a grant shows: how it stands, its lines planned beside actual, and everything that belongs to it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any
from urllib.parse import urlencode

from django.db.models import Q
from django.urls import NoReverseMatch, reverse
from django.utils.translation import gettext_lazy

from partners.funding.grant_models import Grant, GrantState
from partners.funding.grant_step_forms import DoneForm
from partners.funding.grant_sums import LineSum, line_sums
from partners.funding.grant_words import doubts, standing
from partners.ground.money import format_cents
from partners.program.desk import Desk
from partners.program.files import attachments_of
from partners.program.last_change import last_change
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import Standing
from partners.school.approvals import standing as school_standing

SCHOOLS = 4
# The day of each step at the end, and whether it comes after all that is spent.
DAYS_OF = {
    "claimed": (gettext_lazy("Claimed on"), True),
    "reported": (gettext_lazy("Handed in on"), True),
    "rest_back": (gettext_lazy("Sent back on"), False),
}


@dataclass(frozen=True)
class Totals:
    """The sums of all lines in cents."""

    goods: int
    shipping: int
    moved: int
    spent_goods: int
    spent_shipping: int
    left: int

    @property
    def planned(self) -> int:
        return self.goods + self.shipping


def totals(sums: list[LineSum]) -> Totals:
    return Totals(
        goods=sum(one.line.planned_cents for one in sums),
        shipping=sum(one.line.shipping_cents for one in sums),
        moved=sum(one.moved_in - one.moved_out for one in sums),
        spent_goods=sum(one.spent_goods for one in sums),
        spent_shipping=sum(one.spent_shipping for one in sums),
        left=sum(one.left for one in sums),
    )


def context(desk: Desk, grant: Grant, **forms: Any) -> dict[str, Any]:
    """The context of funding/grant_detail.html; `forms` are those that were sent and did not hold."""
    sums = line_sums(grant)
    done: dict[str, Any] = {"initial": {"day": desk.day}}
    thanks = desk.thanks.owed().filter(grant=grant).first() if desk.writes else None
    return {
        "grant": grant,
        "sums": sums,
        "totals": totals(sums),
        "has_moved": any(one.moved_in or one.moved_out for one in sums),
        "standing": standing(grant, desk.day, with_reason=desk.writes),
        "doubts": doubts(grant, sums) if desk.writes else [],
        "changes": grant.changes.select_related("line", "to_line"),
        "answers": grant.answers.count(),
        "purchases": purchases(desk, grant),
        "attachments": attachments_of(desk, grant=grant),
        "letters": desk.letters.filter(grant=grant).exclude(state="draft"),
        "thanks": thanks,
        "procedures": procedures(desk, grant),
        "lines_fixed": lines_fixed(grant),
        "leftover_url": leftover_url(grant),
        "buying_url": buying_url(grant),
        "next": next_step(grant, desk.day),
        "claimed": done_form(desk, grant, "claimed", **done),
        "reported": done_form(desk, grant, "reported", **done),
        "rest_back": done_form(desk, grant, "rest_back", **done),
        "newest": last_change(desk, grant) if desk.writes else None,
        **forms,
    }


def done_form(desk: Desk, grant: Grant, name: str, data: Any = None, **more: Any) -> DoneForm:
    """On which day a grant was claimed or reported on, or its rest went back."""
    label, after_all = DAYS_OF[name]
    spent = not after_all or grant.spent_cents != 0
    return DoneForm(data, desk=desk, prefix=name, not_before=grant.answered_on, label=str(label), spent=spent, **more)


def purchases(desk: Desk, grant: Grant) -> Any:
    """Those whose slip names the grant, and those of which a line is charged to it."""
    charged = grant.program.purchase_lines.filter(grant_line__grant=grant).values("purchase")
    return desk.purchases.filter(Q(grant=grant) | Q(pk__in=charged))


def procedures(desk: Desk, grant: Grant) -> list[Standing]:
    """Who at the school must say yes, as long as the application has not gone out; for no one school, who at each."""
    if grant.state != GrantState.PLANNED:
        return []
    schools = [grant.school] if grant.school else list(desk.schools[:SCHOOLS])
    asked = (school_standing(desk, school, ApprovalFor.GRANTS, grant.apply_by) for school in schools)
    return [one for one in asked if one is not None]


def lines_fixed(grant: Grant) -> bool:
    """From the first receipt or agreed change on, a line of an award changes only with the grantmaker's yes.

    Lines that still come to more than an award in part have to be brought down, whenever somebody comes to it.
    """
    if grant.state in (GrantState.PLANNED, GrantState.ASKED):
        return False
    planned = sum(line.planned_cents + line.shipping_cents for line in grant.lines.all())
    if planned > (grant.awarded_cents or 0):
        return False
    charged = grant.program.purchase_lines.filter(grant_line__grant=grant).exists()
    return charged or grant.changes.exists()


def leftover_url(grant: Grant) -> str:
    """What to buy with what is left, the amount filled in; empty where nothing is."""
    if grant.state != GrantState.AWARDED or grant.left_cents <= 0 or grant.leftover_settled:
        return ""
    amount = format_cents(grant.left_cents).lstrip("$").replace(",", "")
    return f"{reverse('wish_list:leftover')}?{urlencode({'left': amount, 'grant': grant.pk})}"


def next_step(grant: Grant, day: date) -> str:
    """What an award waits for: buy, claim, report; nothing where all is done."""
    if grant.left_cents > 0 and not grant.leftover_settled and (grant.spend_by is None or grant.spend_by >= day):
        return "buy"
    if grant.claim_by is not None and grant.claimed_on is None:
        return "claim"
    return "report" if grant.reported_on is None else ""


def buying_url(grant: Grant) -> str:
    """A slip for buying something from this grant."""
    try:
        return f"{reverse('funding:purchase-new')}?{urlencode({'grant': grant.pk})}"
    except NoReverseMatch:
        return ""
