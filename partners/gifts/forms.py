"""The forms of "Something arrived" and of putting it right."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.kind_named import kind_told
from partners.directory.meanwhile import refuse_the_forgotten
from partners.directory.models import Partner, PartnerKind
from partners.directory.partner_field import PartnerField
from partners.directory.same_partner import LikelyPartner, likely_partners, picked_of_likely
from partners.gifts.line_forms import LineFormSet, line_forms
from partners.gifts.models import Form, Gift, MoneyKind, Source
from partners.gifts.reasons import REASONS
from partners.gifts.risk_words import TICKS, ticks_for
from partners.ground.forms import RowForm
from partners.ground.names import name_key
from partners.promises.day_checks import been, to_come
from partners.promises.models import Part, Promise
from partners.school.models import School

TICK_LABELS = (
    gettext_lazy("The label is there and can be read"),
    gettext_lazy("It is fit for the youngest grade that will use it"),
    gettext_lazy("It is clean, with no residue"),
)
OF_PARTNERS = ("given_value_cents", "gave_back", "gave_back_cents", "purpose")
FOLDED = (*OF_PARTNERS, "day", "received_by", "project", "trade", "for_one_person")

SCHOOLS_SHOWN = 6


# Who somebody may be whose name does not tell; a family is no partner.
WHO: tuple[tuple[str, Any, Any], ...] = (
    (
        Source.FAMILIES,
        gettext_lazy("A family of the school"),
        gettext_lazy("counted with all, without the name"),
    ),
    (PartnerKind.BUSINESS, gettext_lazy("A shop or business"), ""),
    (PartnerKind.CIVIC_GROUP, gettext_lazy("A group or club"), ""),
    (PartnerKind.PERSON, gettext_lazy("Somebody else"), gettext_lazy("a partner, with a letter of thanks")),
)


def tick(label: Any) -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False)


class ChipsUnchosen(forms.RadioSelect):
    """None of them is chosen until somebody does, not even the one that says "none"."""

    def format_value(self, value: Any) -> Any:
        return [] if value is None else super().format_value(value)


class GiftForm(RowForm):
    """What came, with its lines in `lines`. What does not belong to the chosen form of gift is not kept."""

    form = forms.ChoiceField(
        label=gettext_lazy("What kind of gift"),
        choices=Form.choices,
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    money_kind = forms.ChoiceField(
        label=gettext_lazy("Money as"),
        choices=MoneyKind.choices,
        required=False,
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    label_readable, fit_for_youngest, is_clean = (tick(label) for label in TICK_LABELS)

    class Meta:
        model = Gift
        fields = [
            "form", "amount_cents", "money_kind", "return_on", *TICKS, "school", "day", "project", "place",
            "received_by", "purpose", "given_value_cents", "gave_back", "gave_back_cents", "trade",
        ]  # fmt: skip
        labels = {
            "trade": gettext_lazy("It is part of a trade"),
            "received_by": gettext_lazy("Who took it in"),
            "gave_back": gettext_lazy("What we gave back for it"),
            "gave_back_cents": gettext_lazy("What that is worth, our honest estimate"),
            "return_on": gettext_lazy("We return it by"),
        }

    def __init__(self, data: Any = None, *args: Any, lines: LineFormSet | None = None, **kwargs: Any) -> None:
        super().__init__(data, *args, **kwargs)
        self.lines = lines if lines is not None else line_forms(self.desk, data)
        self._school_by_a_tap()
        if self.instance.pk and self.instance.source != Source.PARTNER:
            for name in (*OF_PARTNERS, "trade"):
                del self.fields[name]

    def _school_by_a_tap(self) -> None:
        """A few schools are buttons: one of them is always to be said for what families gave."""
        field: Any = self.fields["school"]
        if self.instance.source == Source.FAMILIES and self.instance.school_id:
            field.required, field.empty_label = True, None
        if 1 < len(field.queryset[: SCHOOLS_SHOWN + 1]) <= SCHOOLS_SHOWN:
            if not field.required:
                field.empty_label = _("no school in particular")
            field.widget = ChipsUnchosen(attrs={"class": "chips"})
            field.widget.choices = field.choices

    @property
    def more_errors(self) -> bool:
        """Whether something is wrong with what the page keeps folded."""
        return any(name in self.errors for name in FOLDED) if self.is_bound else False

    @property
    def more_lines(self) -> bool:
        """Whether more than one thing stands in the lines."""
        return any(line.errors or line["description"].value() for line in self.lines.forms[1:])

    def clean_day(self) -> date:
        return been(self.cleaned_data["day"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        form = data.get("form")
        if form == Form.MONEY:
            self._needs_money(data)
        else:
            data["amount_cents"], data["money_kind"] = None, ""
        if form != Form.LOAN:
            data["return_on"] = None
        elif data.get("return_on") and data.get("day"):
            self._to_come("return_on", data["return_on"], data["day"])
        self._check_lines(data)
        return data

    @property
    def below(self) -> Iterable[forms.BaseForm]:
        return self.lines

    def _needs_money(self, data: dict[str, Any]) -> None:
        if not data.get("amount_cents") and "amount_cents" not in self.errors:
            self.add_error("amount_cents", _("Money needs its amount."))
        if not data.get("money_kind"):
            self.add_error("money_kind", _("Say whether it is a check, cash or a card."))

    def _check_lines(self, data: dict[str, Any]) -> None:
        """At least one thing, except for money; the ticks count only for what asks for them."""
        if not self.lines.is_valid():
            self.add_error(None, _("Look at the lines of what came: one of them is not complete."))
            return
        if data.get("form") != Form.MONEY and not any(line.is_there for line in self.lines):
            self.lines.forms[0].add_error("description", _("Say what came, in a few words."))
            self.add_error(None, _("Say what came, in a few words."))
        if data.get("form") in (Form.GOODS, Form.LOAN):
            for line in self.lines:
                line.propose()
        wanted = ticks_for(line.cleaned_data["risk"] for line in self.lines if line.is_there)
        for name in TICKS:
            data[name] = bool(data.get(name)) if name in wanted else None

    def _to_come(self, name: str, day: date, not_before: date) -> None:
        try:
            to_come(day, self.desk.day, not_before)
        except ValidationError as error:
            self.add_error(name, error)


class ArrivalForm(GiftForm):
    """Something arrived: from whom, what, how many. A promise that is fulfilled says from whom."""

    source = forms.ChoiceField(
        label=gettext_lazy("From"), choices=Source.choices, widget=forms.RadioSelect(attrs={"class": "chips"})
    )
    partner = PartnerField(label=gettext_lazy("Whose name"), required=False, new_allowed=True)
    promise = forms.ModelChoiceField(
        Promise.objects.by_them().exclude(part=Part.PLAIN),
        required=False,
        widget=forms.HiddenInput,
        error_messages={"invalid_choice": gettext_lazy("That promise is not in your book.")},
    )
    new_name = forms.CharField(required=False, widget=forms.HiddenInput)
    giver = forms.CharField(required=False, widget=forms.HiddenInput)
    for_one_person = forms.BooleanField(
        label=gettext_lazy("It is meant for one named teacher or child"), required=False
    )

    class Meta(GiftForm.Meta):
        fields = [*GiftForm.Meta.fields, "source"]

    def __init__(self, data: Any = None, *args: Any, **kwargs: Any) -> None:
        self.likely: list[LikelyPartner] = []
        self.who: list[tuple[str, Any, Any]] = []
        super().__init__(without_family_name(picked_of_likely(data)), *args, **kwargs)

    def clean_for_one_person(self) -> bool:
        if self.cleaned_data["for_one_person"]:
            raise ValidationError(str(REASONS["to_a_person"]), code="to_a_person")
        return False

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        promise = data.get("promise")
        if promise is not None:
            data["source"], data["partner"] = Source.PARTNER, promise.partner
        elif data.get("source") == Source.PARTNER:
            partner, names = data.get("partner"), (data.get("received_by"), data.get("purpose"))
            self._needs_partner(partner)
            refuse_the_forgotten(self, partner, [isinstance(partner, str), *names])
        if data.get("source") != Source.PARTNER:
            data["partner"] = None
            data |= {name: None if name.endswith("_cents") else "" for name in OF_PARTNERS} | {"trade": False}
        if data.get("source") == Source.FAMILIES and not data.get("school") and "school" not in self.errors:
            data["school"] = self._only_school()
        return data

    def _only_school(self) -> School | None:
        """Families are thanked school by school: which one is meant has to be said where there are several."""
        schools = list(self.desk.schools[:2])
        if len(schools) > 1:
            self.add_error("school", _("Say for which school: families are thanked together, school by school."))
        return schools[0] if len(schools) == 1 else None

    def _needs_partner(self, partner: Partner | str | None) -> None:
        if partner is None and "partner" not in self.errors:
            self.add_error("partner", _("Say from whom: type the name, or choose families or unknown."))
        if isinstance(partner, str) and name_key(self.cleaned_data.get("new_name", "")) != name_key(partner):
            self.likely = likely_partners(self.desk, name=partner)
            if self.likely:
                self.add_error("partner", _("Is it one of those below? If not, say that it is a new one."))
        if isinstance(partner, str) and not self.likely and not self.partner_kind:
            self.who = [(f"{kind} {partner}", label, detail) for kind, label, detail in WHO]
            self.add_error("partner", _("Who is that? The name does not tell."))

    @property
    def partner_kind(self) -> str:
        """What a new partner is: told by the name, else by who typed it."""
        typed = self.cleaned_data.get("partner")
        if not isinstance(typed, str):
            return ""
        kind, name = giver_told(self.cleaned_data.get("giver", ""))
        if kind in PartnerKind.values and name_key(name) == name_key(typed):
            return kind
        told = kind_told(typed)
        return told if told != PartnerKind.PERSON else ""


def giver_told(answer: str) -> tuple[str, str]:
    """What a button says of a typed name: who it is, and the name it was said of."""
    kind, _space, name = answer.partition(" ")
    return kind, name


def without_family_name(data: Any) -> Any:
    """A family that was typed by name becomes one of all families, and the name goes no further."""
    if not data:
        return data
    kind, name = giver_told(data.get("giver", ""))
    if kind != Source.FAMILIES or name_key(name) != name_key(data.get("partner", "")):
        return data
    changed = data.copy()
    changed["source"], changed["partner"], changed["giver"] = Source.FAMILIES, "", ""
    return changed


class LookForm(forms.Form):
    """The ticks, on the page of the gift."""

    label_readable, fit_for_youngest, is_clean = (tick(label) for label in TICK_LABELS)

    def __init__(self, *args: Any, wanted: Iterable[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in set(TICKS).difference(wanted):
            del self.fields[name]


class HandInForm(forms.Form):
    receipt_number = forms.CharField(label=gettext_lazy("Receipt number"), required=False, max_length=40)
