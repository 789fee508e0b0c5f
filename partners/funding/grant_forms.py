"""The form in which a grant is written down and put right."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.partner_field import PartnerField
from partners.directory.same_partner import LikelyPartner, likely_partners, picked_of_likely
from partners.funding.grant_limits import out_of_order
from partners.funding.grant_line_forms import GrantLineFormSet, grant_line_forms
from partners.funding.grant_models import Grant, GrantState
from partners.ground.forms import RowForm, choose_the_only
from partners.ground.names import name_key
from partners.promises.day_checks import been, to_come

SAYS = gettext_lazy("Look at the lines: one of them is not complete.")
BY_STATE: dict[str, tuple[str, ...]] = {
    GrantState.PLANNED: ("asked_cents", "apply_by"),
    GrantState.ASKED: ("asked_cents", "asked_on", "answer_by"),
    GrantState.AWARDED: ("asked_cents", "asked_on"),
    GrantState.REFUSED: ("asked_cents", "asked_on"),
}

ORDER_WORDS = {
    "asked_on": gettext_lazy("That lies before the day it was asked, %(day)s."),
    "answered_on": gettext_lazy("That lies before the day they answered, %(day)s."),
    "buy_from": gettext_lazy("That lies before the first day to buy, %(day)s."),
}
PASSED_WORDS = {
    "answered_on": gettext_lazy("They answered on %(day)s, before that."),
    "claimed_on": gettext_lazy("It was claimed on %(day)s, before that."),
    "reported_on": gettext_lazy("The report was handed in on %(day)s, before that."),
}


def sensible(form: forms.BaseForm, today: date, *names: str) -> None:
    """A day more than five years ago or three ahead is a slip of the year."""
    for name in names:
        day = form.cleaned_data.get(name)
        if day is None:
            continue
        try:
            been(day, today) if day <= today else to_come(day, today)
        except ValidationError as error:
            form.add_error(name, error)


def in_order(form: forms.BaseForm, grant: Grant, typed: Mapping[str, date | None]) -> None:
    """The days typed, beside those that the grant has already, stand in the order in which a grant goes."""
    kept = {name: getattr(grant, name) for name in PASSED_WORDS | ORDER_WORDS}
    days = {**kept, **typed}
    for late, before in out_of_order(days):
        field, words, told = late, ORDER_WORDS[before], days[before]
        if late not in form.fields:
            field, words, told = before, PASSED_WORDS[late], days[late]
        if field in form.fields and field not in form.errors and told is not None:
            form.add_error(field, words % {"day": date_format(told, "DATE_FORMAT")})


class GrantForm(RowForm):
    """What the money is for and of whom it is asked, with its lines in `lines`; None as lines once they are fixed."""

    partner = PartnerField(
        label=gettext_lazy("Grantmaker"),
        new_allowed=True,
        error_messages={"required": gettext_lazy("Say who gives the grant: choose one or type the name.")},
    )
    new_name = forms.CharField(required=False, widget=forms.HiddenInput)

    class Meta:
        model = Grant
        fields = ["title", "school", "project", "asked_cents", "apply_by", "asked_on", "answer_by", "note"]
        labels = {"title": gettext_lazy("What for")}
        help_texts = {
            "title": gettext_lazy("For example: clay and glazes for the third grade."),
            "asked_cents": gettext_lazy("With tax and shipping. Left empty: what the lines come to."),
        }
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}

    field_order = ["partner", "title", "asked_cents", "apply_by"]

    def __init__(self, data: Any = None, *args: Any, lines_fixed: bool = False, **kwargs: Any) -> None:
        self.likely: list[LikelyPartner] = []
        super().__init__(picked_of_likely(data), *args, **kwargs)
        self.lines: GrantLineFormSet | None = None
        if not lines_fixed:
            self.lines = grant_line_forms(self.desk, self.instance, data)
        choose_the_only(self, "school")
        if self.instance.pk:
            self.initial["partner"] = self.instance.partner_id
        if self.instance.state != GrantState.PLANNED:
            del self.fields["partner"]
            self.fields["asked_cents"].required = self.fields["asked_on"].required = True
        shown = BY_STATE[self.instance.state]
        for name in {"asked_cents", "apply_by", "asked_on", "answer_by"} - set(shown):
            del self.fields[name]
        self.fields["project"].empty_label = _("no project")  # type: ignore[attr-defined]

    @property
    def more_errors(self) -> bool:
        return self.is_bound and any(name in self.errors for name in ("school", "project", "note"))

    def clean_asked_cents(self) -> int | None:
        cents: int | None = self.cleaned_data["asked_cents"]
        if cents == 0:
            raise ValidationError(_("Nothing is no amount to ask for. Type it like 500.00, or leave it empty."))
        return cents

    def clean_asked_on(self) -> date:
        return been(self.cleaned_data["asked_on"], self.desk.day)

    @property
    def below(self) -> Iterable[forms.BaseForm]:
        return self.lines or ()

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        sensible(self, self.desk.day, "apply_by", "answer_by")
        in_order(self, self.instance, {name: data[name] for name in ("asked_on", "answer_by") if name in data})
        self._check_partner(data.get("partner"), data.get("new_name", ""))
        if self.lines is None:
            return data
        if not self.lines.is_valid():
            self.add_error(None, SAYS)
        elif "asked_cents" in data and data["asked_cents"] is None and "asked_cents" not in self.errors:
            data["asked_cents"] = sum(line.planned_cents + line.shipping_cents for line in self.lines.edits()) or None
        return data

    def _check_partner(self, partner: Any, new_name: str) -> None:
        if isinstance(partner, str) and name_key(new_name) != name_key(partner):
            self.likely = likely_partners(self.desk, name=partner)
            if self.likely:
                self.add_error("partner", _("Is it one of those below? If not, say that it is a new one."))
