"""The words of the letter by which somebody who takes over introduces themself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.forms import LetterWords

if TYPE_CHECKING:
    from outreach.prepared import Prepared

# Whose letter it is, and of which school, is decided with its batch.
OF_ITS_BATCH = ("teacher", "school")


class IntroductionWords(LetterWords):
    former = forms.CharField(label=_("Who taught there before"), max_length=120, required=False)

    field_order = ("former", "body", "enclosures", "language")

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        return {**LetterWords.first(prepared), "former": prepared.facts.about.former}

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        return {**super().kept(prepared), **self.beside(prepared)}

    def frame(self, prepared: Prepared) -> dict[str, Any]:
        return {**super().frame(prepared), **self.beside(prepared)}

    def beside(self, prepared: Prepared) -> dict[str, Any]:
        words = {name: prepared.words[name] for name in OF_ITS_BATCH if name in prepared.words}
        return {**words, "former": self.cleaned_data["former"]}

    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """With who wrote it: the next teacher writes to everybody again."""
        return {**LetterWords.gone(prepared), "teacher": prepared.facts.about.teacher}
