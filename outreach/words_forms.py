"""The form in which a teacher words one part of a sheet."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.trying import LONGEST, refusals
from outreach.worded import Worded
from outreach.wording.own_words import Part
from partners.ground.forms import DeskForm


class OwnWordsForm(DeskForm):
    words = forms.CharField(
        label=_("Your words"),
        help_text=_("Blanks stand in square brackets. A sentence whose blank is empty one day is left out whole."),
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=LONGEST,
        error_messages={"required": _("Write the words here, or leave without saving.")},
    )
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=1_000_000)

    def __init__(self, *args: Any, sheet: Worded, spoken: str, part: Part, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.sheet, self.spoken, self.part = sheet, spoken, part
        self.fields["words"].widget.attrs["lang"] = spoken

    def clean_words(self) -> str:
        """On one line: a part is one paragraph."""
        words = " ".join(str(self.cleaned_data["words"]).split())
        wrong = refusals(self.sheet, self.spoken, self.part, words)
        if wrong:
            raise forms.ValidationError([str(one) for one in wrong])
        return words


class AgainForm(DeskForm):
    """Which earlier version is to stand again (0: the house's words), on which newest one."""

    number = forms.IntegerField(min_value=0, max_value=1_000_000)
    seen = forms.IntegerField(min_value=0, max_value=1_000_000)
