"""What they give, as a set of small forms: one thing each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.exchanges.actions import Given
from partners.exchanges.models import Trade
from partners.ground.forms import DeskForm
from partners.promises.forms import how_many
from partners.promises.models import Part, Promise

PREFIX = "give"
AT_FIRST = 3
MORE = 2
AT_MOST = 12


class GiveForm(DeskForm):
    """One thing they give. A line in which nothing was typed is no line."""

    what = forms.CharField(label=gettext_lazy("What they give"), required=False, max_length=160)
    quantity = how_many(gettext_lazy("How many"))
    due = forms.DateField(
        label=gettext_lazy("By"), required=False, help_text=gettext_lazy("Left empty: on the day we deliver.")
    )
    carrier = forms.CharField(label=gettext_lazy("Who brings it"), required=False, max_length=80)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if not data.get("what") and any(data.get(name) for name in ("quantity", "due", "carrier")):
            self.add_error("what", _("Say what it is."))
        return data

    @property
    def is_there(self) -> bool:
        return bool(self.cleaned_data.get("what"))

    def given(self) -> Given:
        return Given(**self.cleaned_data)


class GiveEditForm(GiveForm):
    """A thing that was agreed already, or a new one. Emptied, it is taken out, unless some of it came."""

    row = forms.ModelChoiceField(Promise.objects.part(Part.GIVE), required=False, widget=forms.HiddenInput)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = self.cleaned_data
        row = data.get("row")
        if row is None or data.get("what"):
            return super().clean()
        if row.deliveries.exists():
            self.add_error("what", _("Some of it came already. Say that it was all of it instead of taking it out."))
        return data


class GiveFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """All they give; iterating gives the forms."""


def give_forms(desk: Any, data: Any = None, before: Sequence[dict[str, Any]] = ()) -> GiveFormSet:
    """For a new trade; `before` is what they gave in one like it."""
    extra = max(AT_FIRST - len(before), 1)
    made: Any = forms.formset_factory(GiveForm, formset=GiveFormSet, extra=extra, max_num=AT_MOST)
    found: GiveFormSet = made(data, prefix=PREFIX, initial=before, form_kwargs={"desk": desk})
    return found


def give_edit_forms(desk: Any, trade: Trade, data: Any = None) -> GiveFormSet:
    """What they give as it was agreed, and room for more."""
    names = ("what", "quantity", "due", "carrier")
    rows = trade.side(Part.GIVE)
    initial = [{"row": row, **{name: getattr(row, name) for name in names}} for row in rows]
    made: Any = forms.formset_factory(GiveEditForm, formset=GiveFormSet, extra=MORE, max_num=AT_MOST + MORE)
    found: GiveFormSet = made(data, prefix=PREFIX, initial=initial, form_kwargs={"desk": desk})
    for form in found.forms:
        form.fields["row"].queryset = trade.promises.filter(part=Part.GIVE)
    return found
