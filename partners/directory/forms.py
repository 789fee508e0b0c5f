"""Forms of partners and the people there."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.dates import MONTHS
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.addresses import read_address
from partners.directory.kind_named import kind_named
from partners.directory.models import BusinessKind, Contact, Partner, PartnerKind
from partners.directory.partner_field import PartnerField
from partners.directory.phones import PhoneError, national, read_phone
from partners.ground.forms import DeskForm, Grouped, RowForm
from partners.ground.names import name_key

__all__ = ["ContactForm", "PartnerField", "PartnerForm", "PartnerNewForm", "PhoneField", "RestForm"]


class PhoneField(forms.CharField):
    """A phone number, kept as E.164 with its extension and shown the way the country writes it."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("label", _("Phone"))
        kwargs.setdefault("max_length", 40)
        kwargs.setdefault("widget", forms.TextInput(attrs={"type": "tel", "inputmode": "tel"}))
        super().__init__(**kwargs)

    def to_python(self, value: Any) -> str:
        typed: str = super().to_python(value) or ""
        if not typed:
            return ""
        try:
            return read_phone(typed).stored
        except PhoneError as error:
            raise ValidationError(gettext(error.sentence) % error.facts) from error

    def prepare_value(self, value: Any) -> Any:
        return national(value) if isinstance(value, str) and value.startswith("+") else value


def with_a_letter(value: str) -> None:
    if not name_key(value):
        raise ValidationError(_("Type a name with at least one letter or digit."), code="nameless")


class PlaceForm(RowForm):
    """A row with a name and a place. An address pasted whole into the street is put into its fields."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["name"].validators.append(with_a_letter)
        self.fields["street"].help_text = _("Or the whole address, pasted in one line.")

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("street") and not any(data.get(name) for name in ("city", "state", "postal_code")):
            read = read_address(data["street"])
            data |= {"street": read.street, "city": read.city, "state": read.state, "postal_code": read.postcode}
        return data


class PartnerNewForm(PlaceForm):
    """Only the name is needed; everything else is asked when it is first of use."""

    phone = PhoneField(required=False)
    person = forms.CharField(
        label=_("Who is there"),
        required=False,
        max_length=120,
        help_text=_("The owner or manager, as they write their name."),
        validators=[with_a_letter],
    )

    class Meta:
        model = Partner
        fields = ["name", "kind", "business_kind", "phone", "street", "city", "state", "postal_code", "web"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.order_fields(["name", "person", "kind", "business_kind", "phone"])
        offer_kinds(self)
        kind: Any = self.fields["kind"]
        kind.choices = [("", _("as the name tells")), *kind.choices]
        kind.required, kind.initial = False, ""
        self.initial["kind"] = ""

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        data["kind"] = data.get("kind") or kind_named(data.get("name", ""))
        return data


class PartnerForm(Grouped, PlaceForm):
    """Everything a partner says about itself, its giving rules in plain words."""

    phone = PhoneField(required=False)
    lead_weeks = forms.IntegerField(
        label=_("Ask this many weeks ahead"),
        required=False,
        min_value=0,
        max_value=104,
        help_text=_("As they told you. Many say four to six."),
    )
    fiscal_year_starts = forms.TypedChoiceField(
        label=_("Their fiscal year begins in"), choices=list(MONTHS.items()), coerce=int
    )

    class Meta:
        model = Partner
        fields = [
            "name", "also_called", "kind", "business_kind", "branch", "street", "city", "state", "postal_code",
            "phone", "email", "web", "best_time", "how_often", "counted_per", "fiscal_year_starts", "decides", "wants",
            "rest_until", "rest_why", "never_ask", "may_name", "may_name_asked_on", "notes",
        ]  # fmt: skip
        labels = {"never_ask": _("Never ask: they said so"), "may_name": _("Their answer")}
        help_texts = {
            "also_called": _("Other names they were written under, parted by semicolons; searching finds these, too."),
            "best_time": _("For example: Tuesday to Thursday, mid-morning."),
            "wants": _("For example: on letterhead, with a W-9, by e-mail to headquarters."),
            "decides": _("For example: the manager, in January for the year."),
            "may_name": _("Whether they may be named in public. Until they said yes: no."),
        }
        widgets = {
            "counted_per": forms.RadioSelect,
            "how_often": forms.RadioSelect,
            "may_name": forms.RadioSelect,
        }

    GROUPS = (
        (_("Who they are"), ("name", "also_called", "kind", "business_kind", "branch")),
        (
            _("Where and how to reach them"),
            ("street", "city", "state", "postal_code", "phone", "email", "web", "best_time"),
        ),
        (
            _("Their own rules for giving"),
            ("lead_weeks", "how_often", "fiscal_year_starts", "counted_per", "decides", "wants"),
        ),
        (_("When not to ask"), ("rest_until", "rest_why", "never_ask")),
        (_("May we name them"), ("may_name", "may_name_asked_on")),
        (_("Anything else"), ("notes",)),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        days = self.instance.lead_days
        self.fields["lead_weeks"].initial = None if days is None else weeks_of(days)
        offer_kinds(self)

    def values(self) -> dict[str, Any]:
        """With `lead_days`: what was stored where the number of weeks was left as it was."""
        weeks, days = self.cleaned_data.get("lead_weeks"), self.instance.lead_days
        if weeks is None or days is None or weeks != weeks_of(days):
            days = None if weeks is None else weeks * 7
        return super().values() | {"lead_days": days}


def weeks_of(days: int) -> int:
    """Whole weeks that cover the days."""
    return -(-days // 7)


def offer_kinds(form: forms.BaseForm) -> None:
    kind: Any = form.fields["kind"]
    business: Any = form.fields["business_kind"]
    kind.choices = PartnerKind.choices
    business.choices = [("", _("not said")), *BusinessKind.choices]


class ContactForm(RowForm):
    phone = PhoneField(required=False)

    class Meta:
        model = Contact
        fields = ["name", "role", "phone", "email", "decides", "since", "left_on"]
        help_texts = {"left_on": _("The person stays in the story and is not offered any more.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["name"].validators.append(with_a_letter)
        if not self.instance.pk:
            del self.fields["left_on"]


class RestForm(DeskForm):
    until = forms.DateField(label=_("Don't ask before"))
    why = forms.CharField(label=_("Why"), required=False, max_length=160)

    def clean_until(self) -> Any:
        until = self.cleaned_data["until"]
        if until <= self.desk.day:
            raise ValidationError(_("Choose a day that is still to come."))
        return until
