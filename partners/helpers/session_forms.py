"""Forms of sessions and of kits that go home."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import DeskForm, RowForm, choose_the_only
from partners.helpers.models import Kit
from partners.helpers.session_models import Session
from partners.promises.day_checks import been, to_come

MOST_MINUTES = 24 * 60


class SessionForm(RowForm):
    past = forms.BooleanField(
        label=_("It was held already; I note who came"), required=False, help_text=_("Only for a day that is past.")
    )

    class Meta:
        model = Session
        fields = ["job", "day", "starts", "ends", "school", "place", "card", "show", "needed"]
        labels = {"starts": _("From"), "ends": _("Until"), "needed": _("Helpers needed")}
        help_texts = {"place": _("For example: the art room, the gym stage.")}
        error_messages = {"place": {"required": _("Say where the helpers shall come.")}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not self.instance.pk and not (kwargs.get("initial") or {}).get("job"):
            self.initial["job"] = ""
            job: Any = self.fields["job"]
            job.choices = [("", gettext("choose one")), *job.choices]
        choose_the_only(self, "school")
        card: Any = self.fields["card"]
        card.empty_label = gettext("the one to begin with")
        show: Any = self.fields["show"]
        show.empty_label = gettext("no show")

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if day >= self.desk.day:
            return to_come(day, self.desk.day)
        if not self.data.get("past") and (not self.instance.pk or day != self.instance_day):
            raise ValidationError(
                gettext("That day is past. Type a day to come, or tick below that it was held already."), code="past"
            )
        return been(day, self.desk.day)

    @property
    def instance_day(self) -> Any:
        """The day as it is stored; the form writes what is typed on its own row."""
        return self.initial.get("day")

    def clean_needed(self) -> int:
        needed: int = self.cleaned_data["needed"]
        if needed > 500:
            raise ValidationError(gettext("So many helpers in one session? Check the number."))
        return needed


class MinutesForm(DeskForm):
    """How long somebody really was there."""

    minutes = forms.IntegerField(label=_("Minutes"), min_value=1, max_value=MOST_MINUTES, required=False)


class KitForm(RowForm):
    class Meta:
        model = Kit
        fields = ["what", "quantity", "school", "out_on", "due"]
        help_texts = {"what": _("For example: felt hearts to sew, with thread and a needle case.")}

    def clean_out_on(self) -> date:
        return been(self.cleaned_data["out_on"], self.desk.day)

    def clean_due(self) -> date:
        due: date = to_come(self.cleaned_data["due"], self.desk.day)
        out_on = self.cleaned_data.get("out_on")
        if out_on and due < out_on:
            raise ValidationError(gettext("It is due back before it went out."))
        return due


class KitBackForm(DeskForm):
    quantity_back = forms.IntegerField(label=_("How many came back"), required=False, min_value=0, max_value=1_000_000)
    minutes = forms.IntegerField(
        label=_("Minutes it took them"),
        required=False,
        min_value=1,
        max_value=32_000,
        help_text=_("Ask; it counts among their hours. Empty where they did not say."),
    )
