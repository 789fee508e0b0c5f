"""The base of every form on a row: nothing of another program is offered or accepted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models.fields import BLANK_CHOICE_DASH
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.direction import reading_unturned
from partners.ground.models import Row
from partners.ground.money import format_cents, parse_cents


class DateInput(forms.DateInput):
    input_type = "date"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%Y-%m-%d")


class TimeInput(forms.TimeInput):
    input_type = "time"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%H:%M")


class CentsField(forms.Field):
    """Money as people write it, in whole cents."""

    widget = forms.TextInput(attrs={"inputmode": "decimal", "class": "money"})

    def __init__(self, *, at_least: int = 0, **kwargs: Any) -> None:
        self.at_least = at_least
        super().__init__(**kwargs)

    def to_python(self, value: Any) -> int | None:
        if value in self.empty_values:
            return None
        try:
            cents = parse_cents(str(value))
        except ValueError as error:
            raise ValidationError(str(error)) from error
        if cents < self.at_least:
            raise ValidationError(_("This is less than can be."))
        return cents

    def prepare_value(self, value: Any) -> Any:
        return format_cents(value).lstrip("$") if isinstance(value, int) else value


class Grouped(forms.BaseForm):
    """A form whose many fields are shown in groups (see templates/_form_groups.html)."""

    GROUPS: Sequence[tuple[Any, Sequence[str]]]

    def groups(self) -> list[tuple[Any, list[forms.BoundField]]]:
        """The fields in groups, each with its title."""
        return [(title, [self[name] for name in names]) for title, names in self.GROUPS]


# What a column of ids can hold; any other number names no row.
IDS = range(-(2**63), 2**63)


class RowsField(forms.ModelMultipleChoiceField):  # type: ignore[type-arg]
    """Several rows that are ticked; a number that no column could hold is no choice, and no fault of the database."""

    def clean(self, value: Any) -> Any:
        for one in value or ():
            with suppress(ValueError):
                # The beginning will do to tell, and Python reads no number of thousands of digits.
                if int(str(one)[:30]) not in IDS:
                    raise ValidationError(self.error_messages["invalid_choice"], "invalid_choice", {"value": one})
        return super().clean(value)


class DeskForm(forms.Form):
    """A form on the desk: every choice of rows is narrowed to what the desk sees."""

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, **kwargs)
        dress(self, desk)


class RowForm(forms.ModelForm):  # type: ignore[type-arg]
    """As DeskForm, for one row. Save through a verb: `form.values()` are the row's new values.

    Constraints of the row are checked with its program, which is no field of the form.
    """

    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, **kwargs)
        dress(self, desk)
        self.instance.program = desk.program
        if self.instance.pk:
            self.fields["seen"].initial = self.instance.version
        else:
            del self.fields["seen"]

    def values(self) -> dict[str, Any]:
        """What was typed, by the row's field names; what the form shows besides stays out."""
        own = {f.name for f in self.instance._meta.concrete_fields}
        return {name: value for name, value in self.cleaned_data.items() if name in own}

    @property
    def below(self) -> Iterable[forms.BaseForm]:
        """The lines of the form, each a form of its own: the summary of errors leads to their fields, too."""
        return ()

    @property
    def said_below(self) -> set[str]:
        """What is wrong at a line; the form's own error in the same words would only repeat it."""
        return {str(error) for line in self.below for field in line for error in field.errors}

    @property
    def version_seen(self) -> int | None:
        return self.cleaned_data.get("seen")

    def _get_validation_exclusions(self) -> set[str]:
        excluded: set[str] = super()._get_validation_exclusions()  # type: ignore[misc]
        return {name for name in excluded if not self._stands_already(name)}

    def _stands_already(self, name: str) -> bool:
        """A row that this one was made to belong to (its program, its school) takes part in the constraints."""
        column = self.instance._meta.get_field(name)
        if name in self.fields or name in ("created_by", "updated_by") or not isinstance(column, models.ForeignKey):
            return False
        return getattr(self.instance, column.attname) is not None


def choose_the_only(form: forms.BaseForm, name: str) -> None:
    """Where the desk knows one row alone (its one school), a form for something new has it chosen already.

    Set on the form: a field's own initial does not show behind the empty column of a new row.
    """
    field: Any = form.fields[name]
    known = list(field.queryset[:2])
    if len(known) == 1 and not form.initial.get(name) and not getattr(getattr(form, "instance", None), "pk", None):
        form.initial[name] = known[0].pk


def dress(form: forms.BaseForm, desk: Any) -> None:
    """Narrow the choices of rows to the desk, clean texts, and give dates and times the browser's own inputs."""
    for name, field in form.fields.items():
        at_desk = getattr(field, "at_desk", None)
        if at_desk is not None:
            at_desk(desk)
        if isinstance(field, forms.ModelChoiceField) and field.queryset is not None:
            model = field.queryset.model
            if issubclass(model, Row):
                field.queryset = desk.narrowed(field.queryset.filter(program=desk.program))
            if field.empty_label == BLANK_CHOICE_DASH[0][1]:
                none = getattr(model, "NONE_CHOSEN", gettext("none"))
                field.empty_label = gettext("choose one") if field.required else none
        if isinstance(field, forms.CharField):
            field.to_python = reading_unturned(field.to_python)  # type: ignore[assignment,method-assign]
        if isinstance(field, forms.DateField):
            field.widget = DateInput(field.widget.attrs)
        elif isinstance(field, forms.TimeField):
            field.widget = TimeInput(field.widget.attrs)
        elif isinstance(form, forms.ModelForm) and name.endswith("_cents"):
            column = form.instance._meta.get_field(name)
            if isinstance(column, models.PositiveBigIntegerField):
                form.fields[name] = CentsField(
                    required=field.required, label=field.label, help_text=field.help_text, initial=field.initial
                )
