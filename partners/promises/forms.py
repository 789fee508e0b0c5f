"""Forms of promises and offers."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.partner_field import PartnerField
from partners.ground.forms import DeskForm, RowForm, choose_the_only
from partners.promises.day_checks import been, to_come
from partners.promises.models import Offer, Promise, Side

MOST = 1_000_000
TOO_MANY = gettext_lazy("This book counts to one million. Is that number right?")
TOO_FEW = gettext_lazy("Write 1 or more.")


def how_many(label: Any, **kwargs: Any) -> forms.IntegerField:
    errors = {"max_value": TOO_MANY, "min_value": TOO_FEW}
    return forms.IntegerField(label=label, required=False, min_value=1, max_value=MOST, error_messages=errors, **kwargs)


class AboutPartner(RowForm):
    """A row about one partner of the desk, whose name is typed."""

    partner = PartnerField(label=gettext_lazy("Partner"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        need: Any = self.fields["need"]
        need.label, need.empty_label = _("From the wish list"), _("not on it")
        need.queryset = need.queryset.open()
        choose_the_only(self, "school")


class PromiseForm(AboutPartner):
    side = forms.ChoiceField(
        label=gettext_lazy("Who promised"),
        choices=[(Side.THEM, gettext_lazy("They did")), (Side.US, gettext_lazy("We did"))],
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    quantity = how_many(gettext_lazy("How many"))
    at_most = how_many(gettext_lazy("Up to"), help_text=gettext_lazy("Only where a range was said."))

    class Meta:
        model = Promise
        fields = [
            "partner", "side", "what", "quantity", "at_most", "unit", "amount_cents", "due", "due_hour", "collect",
            "made_on", "need", "school",
        ]  # fmt: skip
        labels = {"amount_cents": gettext_lazy("Or an amount of money"), "collect": gettext_lazy("We collect it")}
        widgets = {"unit": forms.TextInput(attrs={"class": "short"})}

    def clean_made_on(self) -> date:
        return been(self.cleaned_data["made_on"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("due") and data.get("made_on"):
            checked(self, "due", data["due"], data["made_on"])
        if data.get("at_most") and not data.get("quantity"):
            self.add_error("quantity", _("Say the smaller number of the range here."))
        if data.get("amount_cents") == 0:
            self.add_error("amount_cents", _("Money needs its amount."))
        if data.get("side") == Side.US:
            data["collect"] = False
        return data


class OfferForm(AboutPartner):
    quantity = how_many(gettext_lazy("How many each time"))
    hour = forms.TimeField(label=gettext_lazy("At which hour"), required=False)

    class Meta:
        model = Offer
        fields = ["partner", "what", "quantity", "every", "first_on", "ends_on", "need", "school"]
        widgets = {"every": forms.RadioSelect(attrs={"class": "chips"})}

    field_order = ["partner", "what", "quantity", "every", "first_on", "hour", "ends_on", "need", "school"]

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("first_on"):
            checked(self, "first_on", data["first_on"], self.desk.day)
            if data.get("ends_on"):
                checked(self, "ends_on", data["ends_on"], data["first_on"])
        return data


class MoveForm(DeskForm):
    """Another day for a promise that is still open."""

    due = forms.DateField(label=gettext_lazy("To which day"))
    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def clean_due(self) -> date:
        return to_come(self.cleaned_data["due"], self.desk.day, self.desk.day)


class HandOverForm(DeskForm):
    """How many of what we promised were handed over."""

    quantity = how_many(gettext_lazy("How many"))
    note = forms.CharField(label=gettext_lazy("Note"), required=False, max_length=160)


def checked(form: forms.BaseForm, name: str, day: date, not_before: date) -> None:
    try:
        to_come(day, form.desk.day, not_before)  # type: ignore[attr-defined]
    except ValidationError as error:
        form.add_error(name, error)
