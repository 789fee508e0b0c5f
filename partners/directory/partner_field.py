"""Choosing a partner by typing: a text box, with the partners it could mean as radio buttons below it.

Without script the typed name is looked up when the form is sent. Nothing outside the desk is ever found.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.directory.models import Partner
from partners.directory.moved import partner_or_kept
from partners.ground.direction import unturned
from partners.ground.names import name_key

AT_MOST = 8
LAST_SIGN = "\U0010ffff"
PICKED = "_pk"
BEFORE = "_was"


def suggestions(desk: Any, typed: str, at_most: int = AT_MOST) -> list[Partner]:
    """Partners that `typed` could mean: names that begin with it first, then names and people that hold every word."""
    key = name_key(typed)
    if not key:
        return []
    shown = desk.partners.only("program", "name", "name_key", "city", "street", "kind", "business_kind")
    found = list(shown.filter(name_key__gte=key, name_key__lt=key + LAST_SIGN).order_by("name_key", "pk")[:at_most])
    if len(found) < at_most:
        others = shown.search(typed).exclude(pk__in=[partner.pk for partner in found])
        found += others.order_by("name_key", "pk")[: at_most - len(found)]
    return found


@dataclass(frozen=True)
class Suggestion:
    """One radio button of `_suggest_found.html`."""

    value: int
    label: str
    detail: str = ""
    picked: bool = False


def suggested(partners: Iterable[Partner], picked: int | None = None) -> list[Suggestion]:
    return [
        Suggestion(one.pk, one.name, ", ".join(part for part in (one.street, one.city) if part), one.pk == picked)
        for one in partners
    ]


@dataclass(frozen=True)
class Typed:
    """What the browser sends: a name, and the number of the partner that was picked."""

    name: str = ""
    pk: str = ""

    @classmethod
    def read(cls, data: Mapping[str, Any], name: str) -> Typed:
        """A name typed beside a partner that was picked before, and still is, was typed to choose another."""
        typed, pk = unturned(data.get(name) or ""), data.get(name + PICKED) or ""
        return cls(typed, "" if typed and pk == data.get(name + BEFORE) else pk)


class PartnerInput(forms.TextInput):
    template_name = "directory/partner_input.html"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__({"autocomplete": "off", "maxlength": 120, **(attrs or {})})
        self.found: list[Suggestion] = []

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> Typed:
        return Typed.read(data, name)

    def value_omitted_from_data(self, data: Mapping[str, Any], files: Any, name: str) -> bool:
        return name not in data and name + PICKED not in data

    def format_value(self, value: Any) -> str:
        return value.name if isinstance(value, Typed) and not value.pk else ""

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        context = super().get_context(name, value, attrs)
        picked = name + PICKED
        suggest_url = f"{reverse('directory:partner-suggest')}?field={name}"
        before = next((one.value for one in self.found if one.picked), None)
        own = {"found": self.found, "name": picked, "suggest_url": suggest_url}
        return context | own | {"before": before, "before_name": name + BEFORE}


class PartnerField(forms.Field):
    """Cleans to a Partner of the desk; with `new_allowed` also to the name of one that is not in the book yet.

    The form names it, `partner` say; the browser sends `partner` (the typed name) and `partner_pk` (the one picked,
    which wins). A typed name counts when exactly one partner bears it; case, accents and punctuation do not matter.
    """

    widget = PartnerInput

    def __init__(self, *, new_allowed: bool = False, **kwargs: Any) -> None:
        kwargs.setdefault("label", _("Partner"))
        super().__init__(**kwargs)
        self.new_allowed = new_allowed
        self.desk: Any = None

    @property
    def box(self) -> PartnerInput:
        box: PartnerInput = self.widget  # type: ignore[assignment]
        return box

    def at_desk(self, desk: Any) -> None:
        self.desk = desk

    def prepare_value(self, value: Any) -> Any:
        """A partner or its pk (a form's initial value) is shown as picked."""
        pk = value.pk if isinstance(value, Partner | Typed) else value
        partner = self._by_pk(pk)
        if partner is None:
            return Typed(value.name) if isinstance(value, Typed) else value
        self.box.found = suggested([partner], partner.pk)
        return Typed(partner.name, str(partner.pk))

    def has_changed(self, initial: Any, data: Any) -> bool:
        before = str(getattr(initial, "pk", initial) or "")
        return bool(data.name or data.pk != before) if isinstance(data, Typed) else bool(before)

    def clean(self, value: Any) -> Partner | str | None:
        typed = value if isinstance(value, Typed) else Typed()
        name = typed.name.strip()
        if typed.pk:
            partner = self._by_pk(typed.pk)
            if partner is None:
                raise ValidationError(_("That partner is not in your book. Type its name."), code="unknown")
            return partner
        if not name:
            if self.required:
                raise ValidationError(self.error_messages["required"], code="required")
            return None
        return self._by_name(name)

    def _by_pk(self, pk: Any) -> Partner | None:
        if not str(pk).isdecimal() or len(str(pk)) > 18:
            return None
        # A page from before two partners were put together still says the number of the one that went.
        return partner_or_kept(self.desk, int(pk))

    def _by_name(self, name: str) -> Partner | str:
        key = name_key(name)
        bearers: list[Partner] = list(self.desk.partners.filter(name_key=key)[:AT_MOST]) if key else []
        if len(bearers) == 1:
            return bearers[0]
        if bearers:
            self.box.found = suggested(bearers)
            raise ValidationError(_("More than one partner has this name. Choose which."), code="several")
        if self.new_allowed:
            if not key:
                raise ValidationError(_("Type a name with at least one letter or digit."), code="nameless")
            return name[:120]
        self.box.found = suggested(suggestions(self.desk, name))
        if self.box.found:
            raise ValidationError(_("No partner has exactly this name. Choose one of these."), code="near")
        raise ValidationError(_("No partner of this name is in the book. Add it first."), code="unknown")
