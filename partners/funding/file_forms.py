"""The form of a picture or a paper."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import DeskForm
from partners.program.file_fields import PictureOrPaperField
from partners.program.files import TOLD


class AttachmentForm(DeskForm):
    sent = PictureOrPaperField()
    title = forms.CharField(
        label=_("What it is"), max_length=120, required=False, help_text=_("For instance: award letter, receipt.")
    )
    shows_no_child = forms.BooleanField(
        label=_("No child can be recognized in it, or the school holds a release for each who can"),
        help_text=_("For pictures. Without this tick it is printed nowhere and no guest sees it."),
        required=False,
    )

    def __init__(self, *args: Any, owner: str = "project", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if owner not in TOLD:
            del self.fields["shows_no_child"]
