"""Forms of the wish list."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import Grouped, RowForm
from partners.ground.names import name_key
from partners.wish_list.models import CannotUse, Need


def with_a_letter(value: str) -> None:
    if not name_key(value):
        raise ValidationError(_("Type at least one letter or digit."), code="nameless")


class NeedForm(Grouped, RowForm):
    """One need. How many is a number, or what the students use; nothing but the first field has to be filled."""

    per_student = forms.DecimalField(
        label=_("How many for each student"),
        required=False,
        min_value=Decimal("0.01"),
        max_value=1000,
        decimal_places=2,
        help_text=_("0.5 is one for two. Empty: one each."),
        widget=forms.NumberInput(attrs={"step": "0.01", "inputmode": "decimal"}),
    )

    class Meta:
        model = Need
        fields = [
            "what", "wanted", "unit", "smaller", "household", "quantity", "students", "spare_percent", "on_hand",
            "pack_size", "pack_cents", "school", "project", "needed_by",
        ]  # fmt: skip
        help_texts = {
            "what": _("One thing, the way you would say it in a shop."),
            "quantity": _("Or leave it empty and say how many students use it."),
            "smaller": _("What you would ask for instead: half as many, or one roll."),
            "household": _("Families may have it at home."),
        }

    GROUPS = (
        (_("What"), ("what", "wanted", "unit", "smaller", "household")),
        (_("How many"), ("quantity", "students", "per_student", "spare_percent")),
        (_("What you have, and how it is sold"), ("on_hand", "pack_size", "pack_cents")),
        (_("For whom, and when"), ("school", "project", "needed_by")),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["what"].validators.append(with_a_letter)
        self.fields["per_student"].initial = Decimal(self.instance.hundredths_per_student) / 100
        for name, usual in (("spare_percent", 0), ("on_hand", 0), ("pack_size", 1)):
            field: Any = self.fields[name]
            field.required, field.empty_value = False, usual

    def clean_spare_percent(self) -> int:
        return self._or_usual("spare_percent")

    def clean_on_hand(self) -> int:
        return self._or_usual("on_hand")

    def clean_pack_size(self) -> int:
        return self._or_usual("pack_size")

    def _or_usual(self, name: str) -> int:
        """The number, or what it usually is where the field was left empty."""
        field: Any = self.fields[name]
        typed: int | None = self.cleaned_data[name]
        return int(field.empty_value) if typed is None else typed

    def values(self) -> dict[str, Any]:
        share = self.cleaned_data.get("per_student")
        return super().values() | {"hundredths_per_student": 100 if share is None else int(share * 100)}


class CannotUseForm(RowForm):
    class Meta:
        model = CannotUse
        fields = ["what", "why"]
        widgets = {"what": forms.TextInput(attrs={"autocomplete": "off"})}

    def clean_what(self) -> str:
        what: str = self.cleaned_data["what"].strip()
        with_a_letter(what)
        if any(name_key(listed.what) == name_key(what) for listed in self.desk.cannot_use):
            raise ValidationError(_("This is on the list already."), code="listed")
        return what
