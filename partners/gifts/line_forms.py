"""The lines of a gift as a set of small forms: one thing each."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.gifts.actions import Line, LineEdit
from partners.gifts.models import Gift, GiftLine, Risk
from partners.gifts.risk_words import PATTERNS, risk_named
from partners.ground.forms import DeskForm
from partners.ground.names import name_key
from partners.promises.forms import how_many
from partners.promises.models import Promise
from partners.wish_list.models import Need

PREFIX = "line"
AT_FIRST = 4
AT_MOST = 40


class LineForm(DeskForm):
    """One thing. A line in which nothing was typed is no line."""

    # In a gift that is put right, "not on the wish list" was said.
    fresh = True

    description = forms.CharField(label=gettext_lazy("What"), required=False, max_length=160)
    quantity = how_many(gettext_lazy("How many"))
    unit = forms.CharField(
        label=gettext_lazy("Unit"), required=False, max_length=40, widget=forms.TextInput(attrs={"class": "short"})
    )
    condition = forms.CharField(label=gettext_lazy("Condition"), required=False, max_length=80)
    need = forms.ModelChoiceField(
        Need.objects.open(),
        label=gettext_lazy("From the wish list"),
        required=False,
        empty_label=gettext_lazy("not on it"),
    )
    risk = forms.ChoiceField(label=gettext_lazy("Is it one of these?"), choices=Risk.choices, required=False)
    # Filled in by the page once somebody chose it there, so that nothing is proposed over it.
    chosen = forms.CharField(required=False, widget=forms.HiddenInput)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        need = data.get("need")
        if need is not None and not data.get("description"):
            data["description"] = need.what
        elif need is None and self.fresh:
            data["need"] = self._need_called(data.get("description") or "")
        others = ("quantity", "unit", "condition", "risk")
        if not data.get("description") and any(data.get(name) for name in others):
            self.add_error("description", _("Say what it is."))
        return data

    def _need_called(self, what: str) -> Need | None:
        """What bears the very name of something on the wish list is meant for it."""
        key = name_key(what)
        found = (need for need in self.desk.needs.open() if key and name_key(need.what) == key)
        return next(found, None)

    def propose(self) -> None:
        """What nobody said to be harmless is taken for what its name tells."""
        data = self.cleaned_data
        if self.fresh and self.is_there and not data["risk"] and not data["chosen"]:
            data["risk"] = risk_named(data["description"])

    @property
    def is_there(self) -> bool:
        return bool(self.cleaned_data.get("description"))

    def line(self, promise: Promise | None = None) -> Line:
        typed = {name: value for name, value in self.cleaned_data.items() if name != "chosen"}
        return Line(**typed, promise=promise)


class LineEditForm(LineForm):
    """A line that is written down already, or a new one. Emptied, it is taken out."""

    fresh = False

    row = forms.ModelChoiceField(GiftLine.objects.all(), required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["need"], self.fields["chosen"]

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = self.cleaned_data
        if not data.get("description") and data.get("row"):
            return data
        return super().clean()

    def edit(self) -> LineEdit:
        return LineEdit(**self.cleaned_data)


class LineFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """All lines of a gift; iterating gives the forms."""

    proposes = json.dumps(PATTERNS)


def line_forms(desk: Any, data: Any = None, initial: Sequence[dict[str, Any]] = ()) -> LineFormSet:
    """Lines of a new gift. Without script there is room for four things, and for more than that by saving first."""
    made: Any = forms.formset_factory(
        LineForm, formset=LineFormSet, extra=max(1, AT_FIRST - len(initial)), max_num=AT_MOST, absolute_max=AT_MOST
    )
    found: LineFormSet = made(data, prefix=PREFIX, initial=list(initial), form_kwargs={"desk": desk})
    return found


def edit_forms(desk: Any, gift: Gift, data: Any = None) -> LineFormSet:
    """The lines of a gift as they are, and room for two more."""
    rows = list(gift.lines.all())
    names = ("description", "quantity", "unit", "condition", "risk")
    initial = [{"row": row, **{name: getattr(row, name) for name in names}} for row in rows]
    made: Any = forms.formset_factory(
        LineEditForm, formset=LineFormSet, extra=2, max_num=AT_MOST + 2, absolute_max=AT_MOST + 2
    )
    found: LineFormSet = made(data, prefix=PREFIX, initial=initial, form_kwargs={"desk": desk})
    for form in found.forms:
        form.fields["row"].queryset = gift.lines.all()
    return found
