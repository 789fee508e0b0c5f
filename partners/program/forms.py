"""Forms of the program and its members."""

from __future__ import annotations

from typing import Any
from zoneinfo import available_timezones

from django import forms
from django.contrib.auth.forms import UserCreationForm
from django.core.exceptions import ValidationError
from django.utils.dates import MONTHS
from django.utils.translation import gettext_lazy as _

from partners.ground.direction import reading_unturned
from partners.ground.forms import CentsField, DeskForm, Grouped, RowForm
from partners.program.actions import free_username, named
from partners.program.models import Membership, Opened, Program, Role, User, opened_at_first


class SetUpForm(forms.Form):
    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    school = forms.CharField(
        label=_("One of your schools"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "organization"})
    )


class ProgramForm(Grouped, forms.ModelForm):  # type: ignore[type-arg]
    seen = forms.IntegerField(widget=forms.HiddenInput)
    hour_value_cents = CentsField(
        label=_("Value of a helper's hour"),
        required=False,
        help_text=_(
            "Only for a summary, never on a receipt. Empty: the published figure of the year, where there is one."
        ),
    )

    fiscal_year_starts = forms.TypedChoiceField(
        label=_("Fiscal year begins in"), choices=list(MONTHS.items()), coerce=int
    )

    GROUPS = (
        (_("Under letters"), ("name", "teacher", "title", "email", "phone")),
        (_("On sheets"), ("intro", "paper", "language")),
        (
            _("How many days, how many months"),
            (
                "follow_up_days", "last_follow_up_days", "thank_within", "thank_late", "rest_months_after_gift",
                "quiet_after_months", "colleague_days",
            ),
        ),
        (_("Where and when"), ("time_zone", "fiscal_year_starts")),
        (_("In a summary"), ("hour_value_cents", "hour_value_year", "hour_value_source")),
    )  # fmt: skip

    class Meta:
        model = Program
        fields = [
            "name", "teacher", "title", "email", "phone", "intro", "paper", "language", "time_zone",
            "fiscal_year_starts", "follow_up_days", "last_follow_up_days", "thank_within", "thank_late",
            "rest_months_after_gift", "quiet_after_months", "colleague_days",
            "hour_value_cents", "hour_value_year", "hour_value_source",
        ]  # fmt: skip

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["seen"].initial = self.instance.version

    def clean_time_zone(self) -> str:
        zone: str = self.cleaned_data["time_zone"].strip()
        if zone not in available_timezones():
            raise ValidationError(_("There is no time zone of that name; write it like America/New_York."))
        return zone

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or {}
        if values.get("thank_late", 0) < values.get("thank_within", 0):
            self.add_error("thank_late", _("Thanks cannot be late before they are due."))
        if values.get("hour_value_cents") is not None:
            for name in ("hour_value_year", "hour_value_source"):
                if not values.get(name):
                    self.add_error(name, _("A value of hours is told only with its year and who published it."))
        return values


class MemberFields(forms.Form):
    role = forms.ChoiceField(label=_("What they may do"), choices=Role, widget=forms.RadioSelect)
    opened = forms.MultipleChoiceField(
        label=_("A guest may read"), choices=Opened, required=False, widget=forms.CheckboxSelectMultiple
    )
    school_ids = forms.TypedMultipleChoiceField(
        label=_("Only these schools"),
        help_text=_("None ticked: all of them."),
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )


def offer_schools(form: forms.BaseForm, desk: Any) -> None:
    field: Any = form.fields["school_ids"]
    field.choices = list(desk.schools.values_list("id", "name"))


class InviteForm(MemberFields, DeskForm):
    name = forms.CharField(label=_("Name"), max_length=120)
    field_order = ["name"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial.setdefault("opened", opened_at_first())
        offer_schools(self, self.desk)


class JoinForm(UserCreationForm):  # type: ignore[type-arg]
    """Who opens an invitation says their own name, how they sign in, and a password that nobody else has seen."""

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    field_order = ["name", "username", "password1", "password2"]

    class Meta:
        model = User
        fields = ["username"]
        labels = {"username": _("The name you will sign in with")}
        help_texts = {"username": _("Letters, digits and @ . + - _ only.")}

    def __init__(self, *args: Any, invited: str, **kwargs: Any) -> None:
        given = {"name": invited, "username": free_username(invited)}
        super().__init__(*args, initial=given, **kwargs)
        for field in ("name", "username"):
            self.fields[field].to_python = reading_unturned(self.fields[field].to_python)  # type: ignore[assignment,method-assign]
        self.fields["username"].widget.attrs.pop("autofocus", None)

    def _post_clean(self) -> None:
        # The password is compared with the name, too.
        self.instance.first_name, self.instance.last_name = named(self.cleaned_data.get("name", ""))
        super()._post_clean()  # type: ignore[misc]


SIGNS = ["signs_as", "title", "phone", "email"]
RIGHTS = ["role", "opened", "school_ids"]


class SignsForm(RowForm):
    """How somebody stands under what they print: theirs to change, also without the rights of a keeper."""

    class Meta:
        model = Membership
        fields = SIGNS
        labels = {
            "signs_as": _("Your name under letters"),
            "title": _("Your title"),
            "phone": _("Your school phone"),
            "email": _("Your school e-mail"),
        }
        help_texts = {"signs_as": _("Empty: what you print carries the name in the settings.")}


class MemberForm(MemberFields, RowForm):
    field_order = [*RIGHTS, *SIGNS]

    class Meta:
        model = Membership
        fields = [*RIGHTS, *SIGNS]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offer_schools(self, self.desk)

    def clean_role(self) -> str:
        role: str = self.cleaned_data["role"]
        others = self.desk.memberships.filter(role=Role.KEEPER).exclude(pk=self.instance.pk)
        if role != Role.KEEPER and self.instance.role == Role.KEEPER and not others.exists():
            raise ValidationError(_("Somebody must keep the book: make another member keeper first."))
        return role
