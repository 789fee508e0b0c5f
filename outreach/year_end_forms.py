"""What a teacher may change on a year-end note."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.forms import LetterWords
from outreach.gathering.year_end import span_of
from partners.year.span import spans

if TYPE_CHECKING:
    from outreach.prepared import Prepared


class YearEndWords(LetterWords):
    year = forms.ChoiceField(label=_("Of which year"))

    field_order = ("year", "body", "enclosures", "language")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        fields: Any = self.fields
        fields["year"].choices = [(str(one.year), one.name) for one in spans(self.desk)]

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        return {**LetterWords.first(prepared), "year": str(span_of(prepared.desk, prepared.words).year)}

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        return {**super().kept(prepared), "year": int(self.cleaned_data["year"])}

    def frame(self, prepared: Prepared) -> dict[str, Any]:
        return {**super().frame(prepared), "year": self.cleaned_data["year"]}

    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """With its year, so that nobody is written to twice for the same one."""
        return {**LetterWords.gone(prepared), "year": span_of(prepared.desk, prepared.words).year}
