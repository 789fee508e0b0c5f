"""Forms of schools and calendars."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import RowForm, RowsField
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
    """Its name; what a district says once for all its schools comes from one that is in the book."""

    district_of = forms.ModelChoiceField(
        label=_("Same district and calendar as"),
        queryset=School.objects.none(),
        required=False,
        empty_label=_("none of these"),
        help_text=_("Its town, the district's name, number and tax line, and the days of its calendar are taken over."),
    )

    class Meta:
        model = School
        fields = ["name"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["district_of"]
        field.queryset = self.desk.schools
        field.initial = self.desk.schools.first()
        if field.initial is None:
            del self.fields["district_of"]


TOO_LONG = _("That is more than a year. Is the year typed right?")
A_YEAR = timedelta(days=400)


class YearForm(RowForm):
    """First and last day of a school year, the same for other schools that have none yet; the cycle begins anew."""

    also_at = RowsField(
        label=_("The same days at"),
        queryset=School.objects.none(),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("Schools of which nobody has said yet when it begins."),
    )
    day_one = forms.BooleanField(label=_("The first day of school is day 1 of the cycle"), required=False, initial=True)

    class Meta:
        model = SchoolDays
        fields = ["first", "last"]
        labels = {"first": _("First day of school"), "last": _("Last day of school")}
        help_texts = {
            "last": _(
                "What lies between two school years is closed; before the first and after the latest, ten weeks are."
            )
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["also_at"]
        known = self.desk.program.school_days.filter(kind=ClosureKind.YEAR, last__gte=self.desk.day)
        others = self.desk.schools.exclude(pk=self.instance.school_id).exclude(pk__in=known.values("school"))
        field.queryset = others
        field.initial = others
        if not others:
            del self.fields["also_at"]
        own = self.desk.schools.filter(pk=self.instance.school_id)
        if not (own | others).filter(cycle_length__gt=0).exists():
            del self.fields["day_one"]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        first, last = values.get("first"), values.get("last")
        if first and last and last - first > A_YEAR:
            self.add_error("last", TOO_LONG)
        return values


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
        elif first and last and last - first > A_YEAR:
            self.add_error("last", TOO_LONG)
        return values
