"""What a verdict is asked about: for which need, for which school."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from partners.ground.forms import DeskForm
from partners.school.models import School
from partners.wish_list.models import Need


class MayAskForm(DeskForm):
    need = forms.ModelChoiceField(
        Need.objects.open(),
        required=False,
        label=gettext_lazy("What to ask for"),
        empty_label=gettext_lazy("nothing in particular"),
    )
    school = forms.ModelChoiceField(
        School.objects.all(),
        required=False,
        label=gettext_lazy("For which school"),
        empty_label=gettext_lazy("all of them"),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if len(self.desk.schools[:2]) < 2:
            del self.fields["school"]
