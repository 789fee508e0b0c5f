"""Forms of the wish list."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import RowForm
from partners.wish_list.models import CannotUse, Need


class NeedForm(RowForm):
    class Meta:
        model = Need
        fields = [
            "what", "quantity", "unit", "wanted", "school", "project", "needed_by", "smaller", "household",
            "students", "hundredths_per_student", "spare_percent", "on_hand", "pack_size", "pack_cents",
        ]  # fmt: skip
        help_texts = {"quantity": _("Or leave it empty and say below how many students use it.")}


class CannotUseForm(RowForm):
    class Meta:
        model = CannotUse
        fields = ["what", "why"]
        widgets = {"what": forms.TextInput(attrs={"autocomplete": "off"})}
