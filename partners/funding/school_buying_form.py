"""What the business office of a school says about buying."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.receipt_fields import RateField
from partners.funding.sales_tax import rate_words
from partners.funding.state_rules import STATES, base_rate, state_code
from partners.ground.forms import RowForm
from partners.school.models import School

MOST_DAYS = 366


def days(label: Any, **kwargs: Any) -> forms.IntegerField:
    return forms.IntegerField(label=label, min_value=1, max_value=MOST_DAYS, **kwargs)


class SchoolBuyingForm(RowForm):
    tax_rate = RateField(label=gettext_lazy("Sales tax where the school buys (%)"), required=False, max_length=20)
    claim_days = days(
        gettext_lazy("Hand in receipts within (days)"),
        required=False,
        help_text=gettext_lazy("As the business office says, counted from the day of buying."),
    )
    repay_days = days(gettext_lazy("Repaid within (days) of handing in"))

    class Meta:
        model = School
        fields = ["tax_rate", "tax_per_item", "claim_days", "repay_days"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        code = state_code(self.instance.state)
        found = base_rate(code)
        words = _("State and local tax together, with up to four decimals, such as 6.875.")
        if found is not None:
            facts = {"state": STATES[code], "rate": rate_words(found.parts)}
            words += " " + _("%(state)s’s own rate is %(rate)s; local taxes come on top.") % facts
        self.fields["tax_rate"].help_text = words
