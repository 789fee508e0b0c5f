"""Forms of approvals, procedures and rules for gifts."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django import forms
from django.core.validators import MaxValueValidator
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.ground.forms import DeskForm, RowForm, RowsField
from partners.school.approval_models import AcceptanceRule, Approval, ApprovalFor, Procedure
from partners.school.new_principal import likely_theirs

LONGEST = timedelta(days=3660)
MOST_DAYS_AHEAD = 200


class YesField(RowsField):
    """An approval as it is told apart from others of its school: to what, by whom and when."""

    def label_from_instance(self, approval: Any) -> str:
        said = {
            "what": approval.get_what_for_display(),
            "by": approval.by,
            "on": date_format(approval.on, "DATE_FORMAT"),
        }
        if approval.until is None:
            return _("%(what)s: %(by)s said yes on %(on)s") % said
        said["until"] = date_format(approval.until, "DATE_FORMAT")
        return _("%(what)s: %(by)s said yes on %(on)s, until %(until)s") % said


class ApprovalForm(RowForm):
    """One yes; what lapsed at the school besides can be said yes to with it."""

    also = YesField(
        Approval.objects.all(),
        label=gettext_lazy("The same yes also to"),
        help_text=gettext_lazy("What no longer holds here. Tick only what was said yes to."),
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )

    class Meta:
        model = Approval
        fields = ["what_for", "by", "on", "until", "paper_held"]

    def __init__(self, *args: Any, what_for: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["also"]
        school = self.instance.school_id
        anew = self.desk.procedures.filter(school=school, each_time=True).order_by().values("what_for")
        rows = field.queryset.filter(school=school, lapsed_on__isnull=False, renewed=False).exclude(what_for__in=anew)
        field.queryset = rows.exclude(what_for=what_for).order_by("what_for", "-on", "pk")
        if self.instance.pk or not field.queryset:
            del self.fields["also"]

    @property
    def with_it(self) -> list[Approval]:
        """What lapsed besides, and has the same yes now."""
        return list(self.cleaned_data.get("also", ()))

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        on, until = values.get("on"), values.get("until")
        if on and until and until - on > LONGEST:
            self.add_error("until", _("That is more than ten years. Is the year typed right?"))
        return values


class ProcedureForm(RowForm):
    class Meta:
        model = Procedure
        fields = ["what_for", "who", "form", "days_ahead", "each_time", "how"]
        widgets = {"how": forms.Textarea(attrs={"rows": 3})}
        help_texts = {
            "who": gettext_lazy("For example: the principal. The name itself stands with the yes."),
            "days_ahead": gettext_lazy("Empty: it can be asked at once."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        what_for: Any = self.fields["what_for"]
        what_for.choices = [one for one in ApprovalFor.choices if one[0] != ApprovalFor.GIFTS]
        ahead: Any = self.fields["days_ahead"]
        ahead.validators.append(
            MaxValueValidator(MOST_DAYS_AHEAD, gettext_lazy("That is more than a school year. Is it typed right?"))
        )


class RuleForm(RowForm):
    class Meta:
        model = AcceptanceRule
        fields = ["from_cents", "who", "form"]
        labels = {"from_cents": gettext_lazy("From this value ($)")}


class LapseForm(DeskForm):
    """Which approvals end because somebody left; those of `former` are ticked to begin with."""

    approvals = YesField(
        Approval.objects.all(),
        label=gettext_lazy("These no longer hold"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": gettext_lazy("Tick those that no longer hold, or leave without saving.")},
    )

    def __init__(self, *args: Any, school: Any, former: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["approvals"]
        listed = field.queryset.filter(school=school).may_lapse(self.desk.day).order_by("what_for", "-on", "pk")
        field.queryset = listed
        field.initial = [one.pk for one in listed if former and likely_theirs(one.by, former)]
