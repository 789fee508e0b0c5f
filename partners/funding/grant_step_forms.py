"""The forms of a grant's steps: handing it in, the answer, a change of a line, and the days at the end."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.grant_forms import ORDER_WORDS, in_order, sensible
from partners.funding.grant_limits import not_in_lines
from partners.funding.grant_models import Grant, GrantChange, GrantLine, GrantState
from partners.funding.grant_words import sum_words
from partners.ground.forms import CentsField, DeskForm, RowForm
from partners.promises.day_checks import been


class AskForm(RowForm):
    """The application went out. What the lines do not come to has to be seen."""

    all_the_same = forms.BooleanField(label=gettext_lazy("That is right: the difference is no mistake"), required=False)

    class Meta:
        model = Grant
        fields = ["asked_on", "asked_cents", "answer_by"]
        help_texts = {
            "answer_by": gettext_lazy("If they named no day: when will you ask? You are reminded then."),
            "asked_cents": gettext_lazy("With tax and shipping."),
        }

    def __init__(self, *args: Any, line_cents: list[int], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.line_cents = line_cents
        self.fields["asked_on"].required = self.fields["asked_cents"].required = True
        self.differs = self._differs(self.initial.get("asked_cents"))

    def clean_asked_on(self) -> date:
        return been(self.cleaned_data["asked_on"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        sensible(self, self.desk.day, "answer_by")
        in_order(self, self.instance, {"asked_on": data.get("asked_on"), "answer_by": data.get("answer_by")})
        cents = data.get("asked_cents")
        if cents == 0:
            self.add_error("asked_cents", _("Nothing is no amount to ask for."))
        self.differs = self._differs(cents)
        if self.differs and not data.get("all_the_same"):
            self.add_error("asked_cents", self.differs)
        return data

    def _differs(self, asked: int | None) -> str:
        """Says that the lines do not come to what is asked for; empty where they do."""
        if not asked or not not_in_lines(asked, self.line_cents):
            return ""
        return sum_words(asked, sum(self.line_cents))


YES, NO = "awarded", "refused"
OF_YES = ("awarded_cents", "conditions", "buy_from", "spend_by", "claim_by", "report_due")


class AnswerForm(RowForm):
    """What they answered, in writing; what does not belong to the answer is not kept."""

    said = forms.ChoiceField(
        label=gettext_lazy("What they said"),
        choices=[(YES, gettext_lazy("They award it")), (NO, gettext_lazy("They said no"))],
        widget=forms.RadioSelect(attrs={"class": "chips"}),
        error_messages={"required": gettext_lazy("Say whether they award it.")},
    )

    class Meta:
        model = Grant
        fields = ["answered_on", *OF_YES, "refusal_reason"]
        labels = {"answered_on": gettext_lazy("The day of their letter"), "awarded_cents": gettext_lazy("How much")}
        help_texts = {
            "buy_from": gettext_lazy("The first day on which they pay for something. Often the day of the award."),
            "spend_by": gettext_lazy("The last day to buy."),
            "claim_by": gettext_lazy("The last day to send the receipts. Left empty where they paid at once."),
            "conditions": gettext_lazy("What else their letter asks for."),
        }
        widgets = {"conditions": forms.Textarea(attrs={"rows": 3})}

    field_order = ["said", "answered_on"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["answered_on"].required = True
        if self.instance.state == GrantState.AWARDED:
            del self.fields["said"], self.fields["refusal_reason"]

    @property
    def is_yes(self) -> bool:
        return "said" not in self.fields or self.cleaned_data.get("said") == YES

    def clean_answered_on(self) -> date:
        return been(self.cleaned_data["answered_on"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if not self.is_yes:
            for name in OF_YES:
                self.errors.pop(name, None)
        elif not data.get("awarded_cents") and "awarded_cents" not in self.errors:
            self.add_error("awarded_cents", _("An award has its amount. Type it like 500.00."))
        self._check_days(data)
        return data

    def _check_days(self, data: dict[str, Any]) -> None:
        days = OF_YES[2:] if self.is_yes else ()
        sensible(self, self.desk.day, *days)
        in_order(self, self.instance, {name: data.get(name) for name in ("answered_on", *days)})


class ChangeForm(RowForm):
    """What somebody at the grantmaker agreed to: other words for a line, or money moved to another."""

    moved_cents = CentsField(label=gettext_lazy("Amount moved"), required=False)

    class Meta:
        model = GrantChange
        fields = ["line", "becomes", "moved_cents", "to_line", "agreed_by", "agreed_on", "paper_held"]
        labels = {
            "line": gettext_lazy("Which line"),
            "becomes": gettext_lazy("It is spent on this instead"),
            "agreed_by": gettext_lazy("Who at the grantmaker agreed"),
            "agreed_on": gettext_lazy("When"),
            "paper_held": gettext_lazy("Where their mail or letter lies"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial["moved_cents"] = None
        own = GrantLine.objects.filter(grant=self.instance.grant)
        line, to_line = self.fields["line"], self.fields["to_line"]
        line.queryset = to_line.queryset = own  # type: ignore[attr-defined]
        to_line.empty_label = _("no other line")  # type: ignore[attr-defined]

    def clean_agreed_on(self) -> date:
        return been(self.cleaned_data["agreed_on"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        data["moved_cents"] = data.get("moved_cents") or 0
        self.instance.moved_cents = data["moved_cents"]
        moved, to_line = data["moved_cents"], data.get("to_line")
        if not data.get("becomes") and not moved and to_line is None and "moved_cents" not in self.errors:
            self.add_error("becomes", _("Say what changes: what it is spent on, or how much moves to which line."))
        if moved and to_line is None and "to_line" not in self.errors:
            self.add_error("to_line", _("To which line?"))
        if to_line is not None and not moved and "moved_cents" not in self.errors:
            self.add_error("moved_cents", _("How much moves there?"))
        if to_line is not None and to_line == data.get("line"):
            self.add_error("to_line", _("That is the same line."))
        answered, agreed = self.instance.grant.answered_on, data.get("agreed_on")
        if answered and agreed and agreed < answered:
            words = ORDER_WORDS["answered_on"] % {"day": date_format(answered, "DATE_FORMAT")}
            self.add_error("agreed_on", words)
        return data


class DoneForm(DeskForm):
    """On which day it was done; not before they answered. Where nothing is spent yet, that has to be seen."""

    day = forms.DateField(label=gettext_lazy("On"))
    nothing_spent = forms.BooleanField(
        label=gettext_lazy("That is right: nothing of it is spent"),
        help_text=gettext_lazy(
            "No receipt is charged to this grant. Some grantmakers accept that, others want to know why."
        ),
        error_messages={
            "required": gettext_lazy("Nothing of it is spent. Charge the receipts first, or say that this is right.")
        },
    )

    def __init__(
        self, *args: Any, not_before: date | None = None, label: str = "", spent: bool = True, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.not_before = not_before
        if spent:
            del self.fields["nothing_spent"]
        if label:
            self.fields["day"].label = label

    def clean_day(self) -> date:
        day = been(self.cleaned_data["day"], self.desk.day)
        if self.not_before is not None and day < self.not_before:
            words = ORDER_WORDS["answered_on"] % {"day": date_format(self.not_before, "DATE_FORMAT")}
            raise ValidationError(words)
        return day
