"""What the page of a purchase shows: where it stands, what to do next, what speaks against it."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from partners.funding.buying_facts import claim_of, expected_of, is_flagged, verdict_of
from partners.funding.buying_forms import DayForm, MoneyBackForm
from partners.funding.buying_models import Payer, Purchase
from partners.funding.buying_warnings import after_buying, before_buying
from partners.funding.buying_words import BRING, CAUTION, HEADINGS, SHOWS, sentence, source_words
from partners.funding.sales_tax import rate_words
from partners.program.desk import Desk
from partners.program.files import attachments_of
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import standing


def context(desk: Desk, purchase: Purchase, **forms: Any) -> dict[str, Any]:
    """The context of funding/purchase_detail.html; `forms` are those that were sent and refused, by their names."""
    lines = list(purchase.lines.select_related("need", "grant_line__grant"))
    bought = purchase.bought_on is not None
    shown: dict[str, Any] = {
        "purchase": purchase,
        "lines": lines,
        "rule": rule(purchase),
        "warnings": after_buying(desk, purchase, lines) if bought else open_warnings(desk, purchase),
        "bring": BRING,
        "shows": SHOWS,
        "caution": CAUTION,
        "steps": steps(purchase, own_money=desk.writes),
        "tax": tax(purchase, lines) if bought else None,
        "claim": claim(desk, purchase) if desk.writes else None,
        "attachments": attachments_of(desk, purchase=purchase) if desk.writes else [],
        "standing": standing(desk, purchase.school, ApprovalFor.BUYING) if not bought and desk.writes else None,
        **(small_forms(desk, purchase) if desk.writes else {}),
    }
    return shown | forms | ({"form": next(iter(forms.values()))} if forms else {})


def open_warnings(desk: Desk, purchase: Purchase) -> list[str]:
    return before_buying(desk, purchase) if desk.writes and purchase.called_off_on is None else []


def rule(purchase: Purchase) -> dict[str, Any]:
    """The state's rule in words, with its source."""
    verdict = verdict_of(purchase)
    return {
        "answer": str(verdict.answer),
        "heading": HEADINGS[verdict.answer],
        "sentence": sentence(verdict),
        "source": source_words(verdict),
    }


def steps(purchase: Purchase, *, own_money: bool) -> list[dict[str, Any]]:
    """The way from the slip to the money back; a day where a step is done. `own_money`: who paid may be read."""
    way = [(_("Slip written"), purchase.slip_on), (_("Bought"), purchase.bought_on)]
    way.append((_("Handed in"), purchase.handed_in_on))
    if own_money and purchase.payer == Payer.OWN and not purchase.not_claimed:
        way.append((_("Repaid"), purchase.repaid_on))
    return [{"label": label, "day": day} for label, day in way]


def tax(purchase: Purchase, lines: list[Any]) -> dict[str, Any]:
    """What tax was charged, should have been, and was saved."""
    expected = expected_of(purchase, lines)
    return {
        "expected": expected,
        "rate": rate_words(purchase.tax_rate) if purchase.tax_rate is not None else "",
        "differs": expected is not None and purchase.tax_cents not in (0, expected),
        "flagged": is_flagged(purchase),
        "back_open": is_flagged(purchase) and purchase.tax_back_on is None and not purchase.tax_let_go,
        "without_certificate": purchase.certificate_id is None and purchase.tax_cents > 0,
    }


def claim(desk: Desk, purchase: Purchase) -> dict[str, Any] | None:
    """How many days are left to hand the receipt in, and what the day follows from."""
    found = claim_of(purchase, desk.program.fiscal_year_starts)
    if found is None or purchase.claim_due is None or purchase.handed_in_on is not None or purchase.not_claimed:
        return None
    left = (purchase.claim_due - desk.day).days
    days = purchase.school.claim_days if purchase.school else None
    own_day = purchase.claim_day_named
    return {"left": left, "over": -left, "days": days, "year_ends": found.year_ends and not own_day, "named": own_day}


def small_forms(desk: Desk, purchase: Purchase) -> dict[str, Any]:
    """The small forms below, each with the day before which it cannot have happened."""
    return {
        "hand_in": hand_in_form(desk, purchase),
        "repay": repay_form(desk, purchase),
        "tax_back": tax_back_form(desk, purchase),
    }


def hand_in_form(desk: Desk, purchase: Purchase, data: Any = None) -> DayForm:
    early = _("That is before it was bought.")
    return DayForm(data, desk=desk, not_before=purchase.bought_on, too_early=early, prefix="in")


def repay_form(desk: Desk, purchase: Purchase, data: Any = None) -> MoneyBackForm:
    since = purchase.handed_in_on or purchase.bought_on
    early = _("That is before it was handed in.") if purchase.handed_in_on else _("That is before it was bought.")
    most = purchase.total_cents or 0
    form = MoneyBackForm(data, desk=desk, not_before=since, too_early=early, at_most=most, prefix="back")
    form.fields["cents"].initial = purchase.own_cents or None
    return form


def tax_back_form(desk: Desk, purchase: Purchase, data: Any = None) -> MoneyBackForm:
    early = _("That is before it was bought.")
    return MoneyBackForm(
        data, desk=desk, not_before=purchase.bought_on, too_early=early, at_most=purchase.tax_cents, prefix="tax"
    )
