"""A field of a form for one picture or PDF."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.ground.pictures import PALEST, Made, darkest
from partners.ground.plain import PlainError
from partners.program.file_actions import made_from

# HEIC is left out, so that phones send a JPEG instead.
ACCEPTED = "image/jpeg,image/png,image/webp,application/pdf"


class PictureOrPaperField(forms.FileField):
    """Gives a clean copy (`Made`) for the verb `attach`, or the reason why it is not kept, at the field."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("label", gettext_lazy("Picture or PDF"))
        kwargs.setdefault("help_text", gettext_lazy("JPEG, PNG, WebP or PDF, at most 20 MB."))
        kwargs.setdefault("widget", forms.FileInput(attrs={"accept": ACCEPTED}))
        kwargs.setdefault("allow_empty_file", True)
        kwargs.setdefault("max_length", None)
        super().__init__(**kwargs)

    def clean(self, data: Any, initial: Any = None) -> Made | None:
        sent = super().clean(data, initial)
        if not sent:
            return None
        try:
            return made_from(sent)
        except PlainError as error:
            raise ValidationError(_(error.sentence) % error.facts, code=error.code) from error


PICTURES = "image/jpeg,image/png,image/webp"
NO_PDF = gettext_lazy("Send it as a picture. What is in a PDF can be saved as one, as PNG for instance.")
TOO_PALE = gettext_lazy("On white paper nothing of this would show. Send the version for white paper, in dark colors.")


class PrintedPictureField(PictureOrPaperField):
    """A picture that is printed on white: no PDF, and nothing that a grey copier would lose."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("label", gettext_lazy("Picture"))
        kwargs.setdefault("help_text", gettext_lazy("PNG, JPEG or WebP, at most 20 MB. White margins are cut off."))
        kwargs.setdefault("widget", forms.FileInput(attrs={"accept": PICTURES}))
        super().__init__(**kwargs)

    def clean(self, data: Any, initial: Any = None) -> Made | None:
        made = super().clean(data, initial)
        if made is not None and made.kind == "pdf":
            raise ValidationError(NO_PDF, code="pdf")
        if made is not None and darkest(made.content) > PALEST:
            raise ValidationError(TOO_PALE, code="too_pale")
        return made
