"""What is typed or chosen in a receipt and nowhere else: a rate of sales tax, the line of a grant."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.grant_models import GrantLine
from partners.funding.sales_tax import parse_rate, rate_words
from partners.ground.plain import PlainError


class RateField(forms.CharField):
    """A rate of sales tax as it is typed, in ten-thousandths of a percent."""

    widget = forms.TextInput(attrs={"inputmode": "decimal", "class": "short"})

    def clean(self, value: Any) -> Any:
        typed = super().clean(value)
        if not typed:
            return None
        try:
            return parse_rate(typed)
        except PlainError as error:
            raise ValidationError(_(error.sentence) % error.facts) from error

    def prepare_value(self, value: Any) -> Any:
        return rate_words(value).removesuffix("%") if isinstance(value, int) else value


class GrantLineField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """Lines of grants that go on, each with what its grant is called."""

    def label_from_instance(self, obj: Any) -> str:
        """The line first: a narrow list cuts off the end, and lines of one grant would all look alike."""
        return f"{obj.what} ({obj.grant})"


def grant_line(label: Any, **kwargs: Any) -> GrantLineField:
    going_on = GrantLine.objects.filter(grant__reported_on=None).exclude(grant__state="refused")
    return GrantLineField(
        going_on.select_related("grant"), label=label, required=False, empty_label=gettext_lazy("no grant"), **kwargs
    )
