"""The words of a sheet that a teacher may change before it is printed."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.documents import gratitude_letter, leave_behind
from partners.ground.forms import DeskForm
from partners.program.models import Language
from partners.school.models import School
from partners.wish_list.models import Need


class LeaveBehindWords(DeskForm):
    need = forms.ModelChoiceField(label=_("What you ask for"), queryset=Need.objects.open(), required=False)
    quantity = forms.IntegerField(label=_("How many"), min_value=1, max_value=1_000_000, required=False)
    smaller = forms.CharField(label=_("A smaller alternative"), max_length=160, required=False)
    becomes = forms.CharField(label=_("What it becomes"), max_length=200, required=False)
    offer_back = forms.CharField(label=_("What you offer back"), max_length=200, required=False)
    last_year = forms.CharField(
        label=_("What their last gift became"), help_text=_("Only if it is true."), max_length=300, required=False
    )
    back_on = forms.DateField(label=_("The day you will be back"), required=False)
    school = forms.ModelChoiceField(label=_("On the letterhead of"), queryset=School.objects.all(), required=False)
    language = forms.ChoiceField(label=_("Language"), choices=Language)

    @staticmethod
    def first(facts: leave_behind.Facts) -> dict[str, Any]:
        """What will be printed; the need and the school are chosen from the desk's rows and come in besides."""
        return {
            "quantity": facts.asks[0].quantity if facts.asks else None,
            "smaller": facts.smaller.what if facts.smaller else "",
            "becomes": facts.becomes,
            "offer_back": facts.offer_back,
            "last_year": facts.last_year,
            "back_on": facts.back_on,
            "language": facts.language,
        }

    def words(self) -> dict[str, Any]:
        """As they are kept: rows by id, days as text."""
        kept = {name: self.cleaned_data[name] for name in self.fields}
        return {
            name: value.isoformat() if isinstance(value, date) else getattr(value, "pk", value)
            for name, value in kept.items()
        }


class LetterWords(DeskForm):
    body = forms.CharField(
        label=_("The letter"),
        help_text=_("An empty line begins a new paragraph. Leave it all empty to have it worded anew."),
        widget=forms.Textarea(attrs={"rows": 14}),
        max_length=6000,
        required=False,
    )
    enclosures = forms.CharField(
        label=_("Enclosed"), help_text=_("Several with commas between."), max_length=200, required=False
    )
    language = forms.ChoiceField(label=_("Language"), choices=Language)

    @staticmethod
    def first(facts: gratitude_letter.Facts) -> dict[str, Any]:
        return {
            "body": "\n\n".join(facts.body),
            "enclosures": ", ".join(facts.enclosures),
            "language": facts.language,
        }

    def words(self, worded: tuple[str, ...] = ()) -> dict[str, Any]:
        """As they are kept; a body just as `worded` from the record is not kept, so that it goes on following it."""
        typed = self.cleaned_data
        parts = [" ".join(part.split()) for part in typed["body"].replace("\r", "").split("\n\n")]
        body = [part for part in parts if part]
        return {
            "paragraphs": [] if body == list(worded) else body,
            "enclosures": [part.strip() for part in typed["enclosures"].split(",") if part.strip()],
            "language": typed["language"],
        }
