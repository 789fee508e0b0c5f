"""Forms of schools and calendars."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import RowForm
from partners.school.models import ClosureKind, School, SchoolDays

WEEKDAYS = [
    (0, _("Monday")),
    (1, _("Tuesday")),
    (2, _("Wednesday")),
    (3, _("Thursday")),
    (4, _("Friday")),
    (5, _("Saturday")),
    (6, _("Sunday")),
]


class SchoolForm(RowForm):
    weekdays = forms.TypedMultipleChoiceField(
        label=_("School weekdays"), choices=WEEKDAYS, coerce=int, widget=forms.CheckboxSelectMultiple
    )

    class Meta:
        model = School
        fields = [
            "name", "legal_name", "street", "city", "state", "postal_code", "phone", "principal", "youngest_grade",
            "ein", "governmental", "tax_line", "receipts_by", "asking_needs_approval",
            "weekdays", "cycle_length", "cycle_from", "cycle_slips",
        ]  # fmt: skip

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if values.get("cycle_length") and not values.get("cycle_from"):
            self.add_error("cycle_from", _("Say on which day cycle day 1 falls."))
        return values


class NewSchoolForm(RowForm):
    class Meta:
        model = School
        fields = ["name"]


class DaysForm(RowForm):
    last = forms.DateField(label=_("Last day"), required=False, help_text=_("Empty: one day only."))

    class Meta:
        model = SchoolDays
        fields = ["kind", "title", "first", "last"]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        first, last = values.get("first"), values.get("last")
        if first and not last:
            if values.get("kind") == ClosureKind.YEAR:
                self.add_error("last", _("A school year needs its last day."))
            else:
                values["last"] = self.instance.last = first
        elif first and last and (last - first).days > 400:
            self.add_error("last", _("That is more than a year. Is the year typed right?"))
        return values
