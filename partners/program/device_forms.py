"""Signing in, and whether this device stays signed in."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.utils.translation import gettext_lazy as _

from partners.program.devices import likely_name
from partners.program.models import Device

LONGEST_NAME: int = Device._meta.get_field("name").max_length or 60


class SignInForm(AuthenticationForm):
    keep = forms.BooleanField(
        required=False,
        label=_("Keep me signed in on this device"),
        help_text=_("For sixty days after it was last used. Only where nobody else uses it."),
    )
    device = forms.CharField(
        required=False,
        max_length=LONGEST_NAME,
        label=_("What you call this device"),
        help_text=_("So that you know it in the list of your devices, and can sign it out from another one."),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )

    def __init__(self, request: Any = None, *args: Any, **kwargs: Any) -> None:
        super().__init__(request, *args, **kwargs)
        self.likely = likely_name(request.headers.get("User-Agent", "") if request is not None else "")
        self.fields["device"].initial = self.likely

    def clean_device(self) -> str:
        return str(self.cleaned_data["device"]).strip() or self.likely
