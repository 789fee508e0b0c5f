"""The form of planning an outing."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.models import Partner
from partners.directory.partner_field import PartnerField, suggested
from partners.directory.same_partner import likely_partners
from partners.ground.forms import DeskForm
from partners.school.models import School
from partners.wish_list.models import Need

DAYS_AHEAD = 366


class OutingForm(DeskForm):
    """When, for which school, what for; and a place to add by typing."""

    day = forms.DateField(label=gettext_lazy("Day"))
    school = forms.ModelChoiceField(
        School.objects.all(),
        required=False,
        label=gettext_lazy("For which school"),
        empty_label=gettext_lazy("all of them"),
    )
    need = forms.ModelChoiceField(
        Need.objects.open(),
        required=False,
        label=gettext_lazy("What to ask for"),
        empty_label=gettext_lazy("nothing in particular"),
    )
    add = PartnerField(required=False, new_allowed=True, label=gettext_lazy("Add a place: type its name"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if len(self.desk.schools[:2]) < 2:
            del self.fields["school"]

    def clean_add(self) -> Partner | str | None:
        """A name that is not in the book is a new place, unless it is much like one that is."""
        place: Partner | str | None = self.cleaned_data["add"]
        likely = likely_partners(self.desk, name=place) if isinstance(place, str) else []
        if likely:
            field: Any = self.fields["add"]
            field.box.found = suggested([one.partner for one in likely])
            raise ValidationError(_("A place with a name like this is in your book. Is it one of these?"))
        return place

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if day < self.desk.day:
            raise ValidationError(_("That day has gone by. What happened on it is logged as visits."))
        if day > self.desk.day + timedelta(days=DAYS_AHEAD):
            raise ValidationError(_("That is more than a year ahead. Is the year right?"))
        return day
