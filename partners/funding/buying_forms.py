"""The slip before buying, and the small forms of what happens to a purchase afterwards."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.models import Partner
from partners.directory.partner_field import PartnerField, Typed
from partners.funding.buying_models import Certificate, Purchase
from partners.funding.state_rules import STATES, state_code
from partners.ground.forms import CentsField, DeskForm, RowForm, choose_the_only
from partners.ground.money import format_cents
from partners.promises.day_checks import been

AUTHORIZED = gettext_lazy("The school has authorized me in writing to buy for it")


class StateField(forms.CharField):
    """A state as two letters, or by its name."""

    widget = forms.TextInput(attrs={"class": "short", "autocomplete": "address-level1"})

    def clean(self, value: Any) -> str:
        typed = super().clean(value)
        if not typed:
            return ""
        code = state_code(typed)
        if not code:
            raise ValidationError(_("%(typed)s is no state. Type two letters, such as MN.") % {"typed": typed})
        return code


class SlipForm(RowForm):
    """What is to be bought. The shop is a partner or just a name; a name makes no partner."""

    shop = PartnerField(
        label=gettext_lazy("Shop"),
        new_allowed=True,
        help_text=gettext_lazy("A partner of yours, or any name."),
        error_messages={"required": gettext_lazy("Say where you buy it.")},
    )
    state = StateField(
        label=gettext_lazy("In which state (two letters)"),
        required=False,
        max_length=40,
        help_text=gettext_lazy("Left empty: the school’s own."),
    )

    class Meta:
        model = Purchase
        fields = [
            "what", "estimate_cents", "school", "payer", "authorised_agent", "state", "certificate", "grant", "project",
            "approved_by", "approved_on", "order_number", "note",
        ]  # fmt: skip
        labels = {"authorised_agent": AUTHORIZED}
        widgets = {"payer": forms.RadioSelect(attrs={"class": "chips"}), "note": forms.Textarea(attrs={"rows": 2})}

    field_order = ["shop"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk:
            self.fields["shop"].initial = self.instance.partner or Typed(self.instance.vendor)
        empty = {"certificate": _("none: the tax is paid"), "grant": _("no grant"), "project": _("no project")}
        for name, words in empty.items():
            self.fields[name].empty_label = words  # type: ignore[attr-defined]
        self._narrow()

    def _narrow(self) -> None:
        choose_the_only(self, "school")
        fields: Any = self.fields
        grants = fields["grant"].queryset.going_on()
        if self.instance.grant_id:
            grants = grants | fields["grant"].queryset.filter(pk=self.instance.grant_id)
        fields["grant"].queryset = grants
        fields["certificate"].queryset = fields["certificate"].queryset.select_related("school")
        fields["certificate"].label_from_instance = self.certificate_words

        self._choose_certificate()

    def _choose_certificate(self) -> None:
        """In a new slip, the only one that holds at the school that is chosen already."""
        field: Any = self.fields["certificate"]
        school = self.initial.get("school")
        if school and not self.instance.pk and not self.initial.get("certificate"):
            holds = list(field.queryset.filter(school=school).exclude(valid_until__lt=self.desk.day)[:2])
            self.initial["certificate"] = holds[0].pk if len(holds) == 1 else None

    def certificate_words(self, certificate: Certificate) -> str:
        facts = {"state": certificate.state, "number": certificate.number, "school": certificate.school}
        if certificate.valid_until is None:
            return _("%(state)s, %(school)s: %(number)s") % facts
        day = date_format(certificate.valid_until, "DATE_FORMAT")
        if certificate.valid_until < self.desk.day:
            return _("%(state)s, %(school)s: %(number)s, ended %(day)s") % {**facts, "day": day}
        return _("%(state)s, %(school)s: %(number)s, until %(day)s") % {**facts, "day": day}

    def clean_approved_on(self) -> date | None:
        day = self.cleaned_data["approved_on"]
        return been(day, self.desk.day) if day else None

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        school, certificate = data.get("school"), data.get("certificate")
        if "state" not in self.errors and not data.get("state"):
            data["state"] = state_code(school.state) if school else certificate.state if certificate else ""
        if certificate is not None:
            self._check_certificate(certificate, data.get("state", ""))
        if data.get("approved_on") and not data.get("approved_by"):
            self.add_error("approved_by", _("Say who approved it."))
        if data.get("payer") != "own":
            data["authorised_agent"] = False
        return data

    def _check_certificate(self, certificate: Certificate, state: str) -> None:
        """One of another state is of no use to the shop."""
        if state and certificate.state != state:
            words = _("That certificate is for %(its)s, and this is bought in %(state)s.")
            facts = {"its": STATES.get(certificate.state, certificate.state), "state": STATES[state]}
            self.add_error("certificate", words % facts)

    def slip(self) -> dict[str, Any]:
        """What the verb is told."""
        shop = self.cleaned_data["shop"]
        partner = shop if isinstance(shop, Partner) else None
        return {**self.values(), "vendor": str(shop)[:120], "partner": partner}


class DayForm(DeskForm):
    """On which day it happened: not before the day it counts from, and not ahead."""

    day = forms.DateField(label=gettext_lazy("On"))

    def __init__(self, *args: Any, not_before: date | None = None, too_early: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.not_before, self.too_early = not_before, too_early
        self.fields["day"].initial = self.desk.day

    def clean_day(self) -> date:
        day = been(self.cleaned_data["day"], self.desk.day)
        if self.not_before is not None and day < self.not_before:
            raise ValidationError(self.too_early)
        return day


class MoneyBackForm(DayForm):
    """Money that came back: on which day, and how much, never more than was paid."""

    cents = CentsField(label=gettext_lazy("How much"), at_least=1)

    def __init__(self, *args: Any, at_most: int = 0, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.at_most = at_most
        self.fields["cents"].initial = at_most or None

    def clean_cents(self) -> int:
        cents: int = self.cleaned_data["cents"]
        if self.at_most and cents > self.at_most:
            words = _("That is more than the %(most)s that were paid.")
            raise ValidationError(words % {"most": format_cents(self.at_most)})
        return cents


class CertificateForm(RowForm):
    state = StateField(label=gettext_lazy("State (two letters)"), max_length=40)

    class Meta:
        model = Certificate
        fields = ["school", "state", "number", "holder", "valid_from", "valid_until", "paper_held"]

    def clean_valid_until(self) -> date | None:
        """One that ended long ago, or ends in a far year, is a slip of the year."""
        until: date | None = self.cleaned_data["valid_until"]
        if until is not None and until.year > self.desk.day.year + 20:
            raise ValidationError(_("That is more than twenty years ahead. Is the year right?"))
        return until
