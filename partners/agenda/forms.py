"""Choosing federal holidays for a school's calendar."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import DeskForm
from partners.school.closures import federal_holidays


class HolidaysForm(DeskForm):
    days = forms.MultipleChoiceField(
        label=_("Closed on"),
        help_text=_("Federal holidays, offered as a start. Untick the days your school is open."),
        widget=forms.CheckboxSelectMultiple,
    )

    def __init__(self, *args: Any, first: date, last: date, taken: set[date], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        years = range(first.year, last.year + 1)
        self.names = {
            day.isoformat(): name
            for day, name in federal_holidays(years)
            if first <= day <= last and day.weekday() < 5 and day not in taken
        }
        field: Any = self.fields["days"]
        field.choices = [
            (key, f"{date_format(date.fromisoformat(key), 'DATE_FORMAT')}: {name}") for key, name in self.names.items()
        ]
        field.initial = list(self.names)

    def chosen(self) -> list[tuple[date, str]]:
        return [(date.fromisoformat(key), self.names[key]) for key in self.cleaned_data["days"]]
