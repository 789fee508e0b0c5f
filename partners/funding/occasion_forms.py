"""Forms of free days: when they come back, said by choices, and what became of one."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.dates import MONTHS, WEEKDAYS
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.partner_field import PartnerField
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.funding.occasion_words import EVERY, WHICH, rhythm_words
from partners.funding.recurrence import Every, Rhythm, is_time, next_time, rhythm_of, rhythm_on, rule_of
from partners.ground.days import spelled
from partners.ground.forms import RowForm
from partners.promises.day_checks import been, to_come

BY_WEEKDAY = (Every.YEAR_WEEKDAY, Every.MONTH_WEEKDAY)
DAY = timedelta(days=1)


class OccasionForm(RowForm):
    every = forms.ChoiceField(
        label=gettext_lazy("How often"), choices=EVERY, widget=forms.RadioSelect(attrs={"class": "chips"})
    )
    which = forms.TypedChoiceField(
        label=gettext_lazy("Which one"), choices=[("", "—"), *WHICH], coerce=int, empty_value=None, required=False
    )
    weekday = forms.TypedChoiceField(
        label=gettext_lazy("Day of the week"),
        choices=[("", "—"), *WEEKDAYS.items()],
        coerce=int,
        empty_value=None,
        required=False,
    )
    month = forms.TypedChoiceField(
        label=gettext_lazy("Month"), choices=[("", "—"), *MONTHS.items()], coerce=int, empty_value=None, required=False
    )
    first_on = forms.DateField(label=gettext_lazy("The next time"), required=False)
    partner = PartnerField(
        label=gettext_lazy("Whose day it is"),
        required=False,
        help_text=gettext_lazy("A partner of the book; its phone is the number to call. Empty where there is none."),
    )

    class Meta:
        model = Occasion
        fields = [
            "title", "partner", "place", "first_on", "ends_on", "opens_at", "closes_at", "bring", "limits", "proof",
            "told_by",
        ]  # fmt: skip
        help_texts = {
            "title": gettext_lazy("For example: teachers' day of the library sale, reuse center free for teachers."),
            "ends_on": gettext_lazy("Only where somebody said that it ends."),
            "bring": gettext_lazy("For example: two boxes, a cart."),
            "limits": gettext_lazy("For example: up to 50 books a teacher."),
            "proof": gettext_lazy("For example: school ID, a letter of the school."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.stored: tuple[str, date | None] = (self.instance.rule, self.instance.first_on)
        told = rhythm_of(self.instance.rule) if self.instance.pk else None
        if told is not None:
            own = told.every in BY_WEEKDAY
            self.initial.update(
                every=told.every,
                which=told.which or "",
                weekday=told.weekday if own else "",
                month=told.month if told.every == Every.YEAR_WEEKDAY else "",
            )

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("every") and "first_on" in data:
            self._clean_days(data)
        if data.get("opens_at") and data.get("closes_at") and data["closes_at"] <= data["opens_at"]:
            self.add_error("closes_at", _("It closes before it opens."))
        return data

    def _clean_days(self, data: dict[str, Any]) -> None:
        """Work out the rule and the first time, and put both among the data."""
        try:
            rhythm = self._rhythm(data)
            if rhythm is None:
                return
            data["rule"] = self.instance.rule = rule_of(rhythm)
            data["first_on"] = self.instance.first_on = self._first(rhythm, data["rule"], data["first_on"])
        except ValidationError as error:
            self.add_error("first_on", error)
        else:
            if data.get("ends_on") and data["ends_on"] < data["first_on"]:
                self.add_error("ends_on", _("It ends before the next time comes."))

    def _rhythm(self, data: dict[str, Any]) -> Rhythm | None:
        """None where a choice is missing; the field says so."""
        every = Every(data["every"])
        if every not in BY_WEEKDAY:
            if data["first_on"] is None:
                raise ValidationError(_("Say which day the next time is."), code="required")
            return rhythm_on(every, data["first_on"])
        asked = {
            "which": (data.get("which"), _("Say which one of the month, such as the third.")),
            "weekday": (data.get("weekday") is not None, _("Say which day of the week.")),
            "month": (data.get("month") or every == Every.MONTH_WEEKDAY, _("Say in which month.")),
        }
        for name, (given, words) in asked.items():
            if not given and name not in self.errors:
                self.add_error(name, words)
        if any(name in self.errors for name in asked):
            return None
        month = data["month"] if every == Every.YEAR_WEEKDAY else 0
        return Rhythm(every, data["which"], data["weekday"], month)

    def _first(self, rhythm: Rhythm, rule: str, typed: date | None) -> date:
        """The day that was typed, or the next one that follows from the rule. Raises ValidationError."""
        known_rule, known_first = self.stored
        if typed is None or (rhythm.every in BY_WEEKDAY and typed == known_first and rule != known_rule):
            found = next_time(rule, self.desk.day)
            assert found is not None  # noqa: S101 -- weekdays of a month come every year
            return found
        if not is_time(rule, typed, typed):
            right = next_time(rule, max(typed, self.desk.day))
            words = _("That day is not “%(rule)s”: the next such day is %(day)s. Leave it empty to have it worked out.")
            day = spelled(right, "DATE_FORMAT") if right else ""
            raise ValidationError(words, params={"rule": rhythm_words(rhythm), "day": day}, code="other_day")
        if typed < self.desk.day and typed != known_first:
            raise ValidationError(_("That day is past. Type the next time."), code="past")
        return to_come(typed, self.desk.day)

    def values(self) -> dict[str, Any]:
        return {**super().values(), "rule": self.cleaned_data["rule"]}


class WentForm(RowForm):
    went = forms.TypedChoiceField(
        label=gettext_lazy("Did you go?"),
        choices=[("yes", gettext_lazy("We went")), ("no", gettext_lazy("We did not go"))],
        coerce=lambda value: value == "yes",
        widget=forms.RadioSelect(attrs={"class": "big"}),
        error_messages={"required": gettext_lazy("Say whether you went.")},
    )

    class Meta:
        model = OccasionDay
        fields = ["day", "went", "got"]
        labels = {"day": gettext_lazy("On which day")}
        help_texts = {"got": gettext_lazy("For example: 42 books on animals, two boxes of frames.")}

    field_order = ["went", "day", "got"]

    def clean_day(self) -> date:
        return been(self.cleaned_data["day"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("got") and data.get("went") is False:
            self.add_error("got", _("You did not go: then leave this empty, or say that you went."))
        return data
