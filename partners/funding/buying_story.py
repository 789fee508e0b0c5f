"""What was bought at a partner's shop, as lines of its story."""

from __future__ import annotations

from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.funding.buying_models import Purchase
from partners.ground.money import format_cents
from partners.ground.story import StoryLine
from partners.program.models import Opened


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """Slips and purchases; who paid is nobody else's business, and is not among it."""
    if not desk.reads(Opened.MONEY):
        return []
    own = desk.purchases.filter(partner=partner, called_off_on=None).order_by()
    bought = own.select_related("school", "project")
    return [*(_line(one) for one in bought), *(_tax(one) for one in bought if one.tax_back_on)]


def _line(purchase: Purchase) -> StoryLine:
    if purchase.bought_on is None:
        what = _("We mean to buy %(what)s") % {"what": purchase.what}
    else:
        facts = {"what": purchase.what, "amount": format_cents(purchase.total_cents or 0)}
        what = _("We bought %(what)s for %(amount)s") % facts
    return StoryLine(
        day=purchase.bought_on or purchase.slip_on,
        written_at=purchase.created_at,
        what=what,
        detail=", ".join(str(one) for one in (purchase.school, purchase.project) if one),
        url=purchase.get_absolute_url(),
        private=purchase.note,
        open=purchase.bought_on is None,
    )


def _tax(purchase: Purchase) -> StoryLine:
    day = purchase.tax_back_on or purchase.slip_on
    what = _("They gave back %(amount)s of sales tax") % {"amount": format_cents(purchase.tax_back_cents or 0)}
    detail = date_format(purchase.bought_on, "DATE_FORMAT") if purchase.bought_on else ""
    return StoryLine(
        day=day, written_at=purchase.updated_at, what=what, detail=detail, side="them", url=purchase.get_absolute_url()
    )
