"""Which school and which fiscal year a list is of."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.gathering.board import years
from partners.ground.forms import DeskForm
from partners.school.models import School


class YearForm(DeskForm):
    school = forms.ModelChoiceField(
        School.objects.all(), label=_("School"), required=False, empty_label=_("all schools")
    )
    year = forms.TypedChoiceField(label=_("Fiscal year"), coerce=int, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["year"]
        field.choices = years(self.desk)
