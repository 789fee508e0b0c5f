"""Which part of the book is handed over, and what changes when it is."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import DeskForm
from partners.program.models import Program
from partners.school.approval_forms import YesField
from partners.school.approval_models import Approval
from partners.school.models import School


class PartForm(DeskForm):
    school = forms.ModelChoiceField(
        School.objects.all(), label=_("What is handed over"), required=False, empty_label=_("the whole book")
    )


class SchoolYesField(YesField):
    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.school}: {super().label_from_instance(obj)}"


class HandOverForm(DeskForm):
    """What stands under letters from now on, and which approvals were given to the former teacher alone."""

    seen = forms.IntegerField(widget=forms.HiddenInput)
    teacher = forms.CharField(label=_("Their name"), help_text=_("As it stands under letters."), max_length=120)
    title = forms.CharField(label=_("Their title"), max_length=120, required=False)
    email = forms.EmailField(label=_("Their school e-mail"), required=False)
    phone = forms.CharField(label=_("Their school phone"), max_length=40, required=False)
    approvals = SchoolYesField(
        Approval.objects.select_related("school"),
        label=_("These no longer hold"),
        help_text=_(
            "Whether a yes outlasts the person it was given to is the district's rule: ask the office, and untick what "
            "goes on. Each is asked for again under Today."
        ),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        program: Program = self.desk.program
        field: Any = self.fields["approvals"]
        field.queryset = field.queryset.holding_on(self.desk.day).order_by("school__name", "what_for", "-on", "pk")
        field.initial = [one.pk for one in field.queryset]
        if not field.initial:
            del self.fields["approvals"]
        self.initial = {"seen": program.version, "title": program.title, **self.initial}

    def clean_teacher(self) -> str:
        name = " ".join(str(self.cleaned_data["teacher"]).split())
        if name.casefold() == self.desk.program.teacher.casefold():
            raise forms.ValidationError(_("The book is kept under this name already."))
        return name
