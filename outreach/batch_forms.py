"""Which letters are made in one go, and what of them went out."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from outreach.batches import BatchSheets
from outreach.prepared import name_under, signs
from partners.ground.forms import DeskForm, RowForm
from partners.ground.months import add_months
from partners.letters.models import Batch, BatchKind, LetterState
from partners.program.desk import Desk
from partners.program.letter_pictures import may_sign
from partners.school.models import School
from partners.year.handover_actions import former_teacher
from partners.year.span import Span, spans

EVERY = "every"
WENT = (LetterState.HANDED_OVER, LetterState.MAILED)


def months_owed(desk: Desk) -> list[date]:
    """The months in which thanks arose that are owed still, the latest first."""
    found = desk.thanks.owed().order_by().dates("base", "month", order="DESC")
    return list(found)


class MonthForm(DeskForm):
    """The months whose thanks are put together; of several they are first offered all as one."""

    kind = forms.CharField(widget=forms.HiddenInput, initial=BatchKind.THANKS)
    month = forms.ChoiceField(label=_("Of which month"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["month"]
        self.owed = months_owed(self.desk)
        every = [(EVERY, _("all that are owed"))] if len(self.owed) > 1 else []
        field.choices = every + [(month.isoformat(), date_format(month, "F Y")) for month in self.owed]

    @property
    def span(self) -> tuple[date, date]:
        """The first and the last day of what was chosen."""
        typed = self.cleaned_data["month"]
        first, last = (self.owed[-1], self.owed[0]) if typed == EVERY else (date.fromisoformat(typed),) * 2
        return first, add_months(last, 1) - timedelta(days=1)


class YearEndForm(DeskForm):
    kind = forms.CharField(widget=forms.HiddenInput, initial=BatchKind.YEAR_END)
    year = forms.ChoiceField(label=_("Year"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.known = {str(one.year): one for one in spans(self.desk)}
        field: Any = self.fields["year"]
        field.choices = [(key, span.name) for key, span in self.known.items()]

    @property
    def span(self) -> Span:
        return self.known[self.cleaned_data["year"]]


class IntroductionForm(DeskForm):
    kind = forms.CharField(widget=forms.HiddenInput, initial=BatchKind.INTRODUCTION)
    school = forms.ModelChoiceField(
        School.objects.all(), label=_("To the partners of"), required=False, empty_label=_("all schools together")
    )
    former = forms.CharField(
        label=_("Who taught there before"),
        help_text=_("The letter says “in place of” and this name."),
        max_length=120,
        required=False,
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        signs, teacher = self.desk.signs.teacher, self.desk.program.teacher
        self.initial.setdefault("former", former_teacher(self.desk, signs) if signs == teacher else teacher)
        if self.desk.schools.count() < 2:
            del self.fields["school"]
        elif self.desk.school_ids:
            # A letter of "all schools" would name those of others too, where somebody else prints it.
            field: Any = self.fields["school"]
            field.required, field.empty_label = True, None


class BatchForm(RowForm):
    class Meta:
        model = Batch
        fields = ("title", "day", "signed")
        labels = {"day": _("The day that stands on the sheets")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        first = BatchSheets(self.desk, self.instance).first if self.instance.pk else None
        if first is None or not signs(first.facts) or not may_sign(self.desk, name_under(first.facts)):
            del self.fields["signed"]


class GoneForm(DeskForm):
    """All but the ticked ones went out. Ticked is what is still here: few are, and few fields are sent."""

    state = forms.ChoiceField(
        label=_("How did they go?"), choices=[(one.value, one.label) for one in WENT], widget=forms.RadioSelect
    )
    day = forms.DateField(label=_("On which day"))
    here = forms.TypedMultipleChoiceField(label=_("Still here"), coerce=int, required=False)

    def __init__(self, *args: Any, batch: Batch, **kwargs: Any) -> None:
        state = LetterState.HANDED_OVER if batch.kind == BatchKind.OUTING else LetterState.MAILED
        desk = kwargs["desk"]
        kwargs["initial"] = {"state": state, "day": desk.day, **kwargs.get("initial", {})}
        super().__init__(*args, **kwargs)
        field: Any = self.fields["here"]
        left = desk.letters.filter(batch=batch, state=LetterState.DRAFT).order_by("place", "pk")
        field.choices = [(pk, title) for pk, title in left.values_list("pk", "title")]

    @property
    def ticked(self) -> set[int]:
        """What was ticked, also where something else is wrong."""
        typed: Any = self.data
        return {int(one) for one in typed.getlist("here") if one.isdigit()} if self.is_bound else set()

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if day > self.desk.day:
            raise forms.ValidationError(_("That day is still to come."))
        return day
