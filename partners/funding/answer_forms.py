"""Forms of answers: those of one application, and those kept ready."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.answer_actions import AnswerEdit
from partners.funding.grant_models import Grant, GrantAnswer, ReadyAnswer
from partners.ground.forms import DeskForm, RowForm, RowsField

PREFIX = "answer"
AT_MOST = 30
LONGEST = 8000


def words_field(**kwargs: Any) -> forms.CharField:
    area = forms.Textarea(attrs={"rows": 6})
    return forms.CharField(label=gettext_lazy("Answer"), required=False, max_length=LONGEST, widget=area, **kwargs)


class AnswerOfGrantForm(DeskForm):
    """A question and its answer. Without the question it is no answer; an old one goes."""

    row = forms.ModelChoiceField(GrantAnswer.objects.all(), required=False, widget=forms.HiddenInput)
    question = forms.CharField(label=gettext_lazy("Question"), required=False, max_length=200)
    words = words_field()

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("words") and not data.get("question") and not data.get("row"):
            self.add_error("question", _("Which question does this answer?"))
        return data

    def edit(self) -> AnswerEdit:
        return AnswerEdit(**self.cleaned_data)

    @property
    def is_there(self) -> bool:
        return bool(self.cleaned_data.get("question") or self.cleaned_data.get("row"))


class AnswerFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """All answers of an application."""

    def edits(self) -> list[AnswerEdit]:
        return [one.edit() for one in self.forms if one.is_there]


def answer_forms(desk: Any, grant: Grant, data: Any = None) -> AnswerFormSet:
    rows = list(grant.answers.all())
    initial = [{"row": row, "question": row.question, "words": row.words} for row in rows]
    made: Any = forms.formset_factory(
        AnswerOfGrantForm, formset=AnswerFormSet, extra=1, max_num=AT_MOST, absolute_max=AT_MOST
    )
    found: AnswerFormSet = made(data, prefix=PREFIX, initial=initial, form_kwargs={"desk": desk})
    for form in found.forms:
        form.fields["row"].queryset = grant.answers.all()
    return found


class SeenForm(DeskForm):
    """The version of the grant whose answers are shown."""

    seen = forms.IntegerField(widget=forms.HiddenInput, required=False)


class TakeOverForm(DeskForm):
    """Which ready answers are copied: those whose question the application does not have yet."""

    ready = RowsField(
        ReadyAnswer.objects.all(), label=gettext_lazy("Ready answers"), widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, *args: Any, grant: Grant, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        there = list(grant.answers.values_list("question", flat=True))
        field: Any = self.fields["ready"]
        field.queryset = field.queryset.exclude(question__in=there)
        if not there:
            # Most applications ask all of them; what is not asked is unticked.
            field.initial = field.queryset


class ReadyAnswerForm(RowForm):
    words = words_field()

    class Meta:
        model = ReadyAnswer
        fields = ["question", "words"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["words"].required = True
