"""Small forms of a trade: a delivery, an approval."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.exchanges.models import Trade
from partners.ground.forms import DeskForm
from partners.promises.day_checks import been
from partners.promises.forms import how_many
from partners.promises.models import Part, Promise
from partners.school.approval_models import Approval, ApprovalFor
from partners.school.models import School


class BackForm(DeskForm):
    """How many plain items went back unused, and when; `most`: so many are there that could."""

    went_back = how_many(gettext_lazy("How many plain ones went back"))
    day = forms.DateField(label=gettext_lazy("On"))

    def __init__(self, *args: Any, most: int = 0, **kwargs: Any) -> None:
        self.most = most
        kwargs.setdefault("auto_id", "id_back_%s")
        super().__init__(*args, **kwargs)
        self.fields["went_back"].required = True
        self.fields["day"].initial = self.desk.day

    def clean_went_back(self) -> int | None:
        count: int | None = self.cleaned_data["went_back"]
        if count and count > self.most:
            sentence = ngettext(
                "Only %(count)d came that is not back yet.", "Only %(count)d came that are not back yet.", self.most
            )
            raise ValidationError(sentence % {"count": self.most})
        return count

    def clean_day(self) -> date:
        return been(self.cleaned_data["day"], self.desk.day)


class DeliverForm(BackForm):
    """How many of a part changed hands, and when; of finished items also how many plain ones went back with them."""

    quantity = how_many(gettext_lazy("How many"))
    field_order = ("quantity", "went_back", "day")

    def __init__(self, *args: Any, promise: Promise | None = None, **kwargs: Any) -> None:
        self.promise = promise or Promise()
        trade = self.promise.trade if self.promise.part == Part.MAKE else None
        most = trade.could_go_back if trade is not None else 0
        super().__init__(*args, most=most, auto_id=f"id_{self.promise.part}_%s", **kwargs)
        self.fields["quantity"].initial = self.promise.missing or None
        self.fields["quantity"].required = not most
        if most:
            back = self.fields["went_back"]
            back.required, back.label = False, _("Plain ones that go back with them")
            back.help_text = _("Only what is left of them, unused.")
        else:
            del self.fields["went_back"]

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if not self.errors and not data.get("quantity") and not data.get("went_back"):
            self.add_error("quantity", self.fields["quantity"].error_messages["required"])
        return data


WHO = {"required": gettext_lazy("Say who approved it.")}


class ApprovalField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """An approval as it is told apart from others of its kind: where, who and when."""

    def label_from_instance(self, approval: Any) -> str:
        return f"{approval.school}: {approval.by}, {date_format(approval.on, 'DATE_FORMAT')}"


class ApproveForm(DeskForm):
    """Who approved the trade: an approval that is recorded already, or a new one."""

    approval = ApprovalField(
        Approval.objects.filter(what_for=ApprovalFor.TRADES).select_related("school"),
        label=gettext_lazy("Recorded already"),
        required=False,
        empty_label=gettext_lazy("a new one, as below"),
    )
    school = forms.ModelChoiceField(School.objects.all(), label=gettext_lazy("School"), required=False)
    by = forms.CharField(label=gettext_lazy("Approved by"), required=False, max_length=120, error_messages=WHO)
    on = forms.DateField(label=gettext_lazy("On"), required=False)
    until = forms.DateField(label=gettext_lazy("Until"), required=False)
    paper_held = forms.CharField(label=gettext_lazy("Where the paper lies"), required=False, max_length=120)

    def __init__(self, *args: Any, trade: Trade | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        school = trade.school if trade is not None else None
        approval: Any = self.fields["approval"]
        approval.queryset = approval.queryset.filter(lapsed_on=None)
        self.fields["on"].initial = self.desk.day
        if school is not None:
            approval.queryset = approval.queryset.filter(school=school)
            self.fields["school"].initial, self.fields["by"].initial = school, school.principal
            self.fields["school"].widget = forms.HiddenInput()
        elif self.desk.schools.count() == 1:
            self.fields["school"].initial = self.desk.schools.get()
        if not approval.queryset.exists():
            approval.widget = forms.HiddenInput()
            for name in ("by", "on", "school"):
                self.fields[name].required = True

    def clean_on(self) -> date | None:
        day: date | None = self.cleaned_data["on"]
        return day and been(day, self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("approval") is not None:
            return data
        for name, sentence in (("by", _("Say who approved it.")), ("on", _("Say on which day."))):
            if not data.get(name) and name not in self.errors:
                self.add_error(name, sentence)
        if data.get("school") is None and "school" not in self.errors:
            self.add_error("school", _("Say of which school."))
        if data.get("until") and data.get("on") and data["until"] < data["on"]:
            self.add_error("until", _("It ends before it begins."))
        return data
