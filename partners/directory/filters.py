"""What a list of partners can be narrowed to."""

from __future__ import annotations

from string import ascii_lowercase
from typing import Any

import django_filters  # type: ignore[import-untyped]
from django import forms
from django.utils.translation import gettext_lazy as _

from partners.directory.models import BusinessKind, Partner, PartnerKind, PartnerQuerySet
from partners.directory.quiet import cut_off

ASKING = [
    ("open", _("not resting")),
    ("resting", _("resting, soonest over first")),
    ("never", _("never ask")),
    ("quiet", _("gone quiet")),
]

# What begins with no Latin letter stands together.
OTHER = "other"
LETTERS = [*((letter, letter.upper()) for letter in ascii_lowercase), (OTHER, _("others"))]


class PartnerFilter(django_filters.FilterSet):  # type: ignore[misc]
    """Needs the desk as `desk`. A choice that does not exist narrows nothing and is said at its field."""

    q = django_filters.CharFilter(
        label=_("Name, or a person there"),
        method="named",
        widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"}),
    )
    asking = django_filters.ChoiceFilter(label=_("Asking"), choices=ASKING, method="askable", empty_label=_("all"))
    kind = django_filters.ChoiceFilter(label=_("Kind"), choices=PartnerKind, empty_label=_("every kind"))
    business_kind = django_filters.ChoiceFilter(
        label=_("Business"), choices=BusinessKind, empty_label=_("every business")
    )
    city = django_filters.CharFilter(label=_("Town"), lookup_expr="icontains")
    begins = django_filters.ChoiceFilter(label=_("First letter"), choices=LETTERS, method="beginning")

    class Meta:
        model = Partner
        fields = ["q", "asking", "kind", "business_kind", "city", "begins"]

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, queryset=desk.partners, **kwargs)

    def named(self, partners: PartnerQuerySet, name: str, value: str) -> PartnerQuerySet:
        return partners.search(value)

    def beginning(self, partners: PartnerQuerySet, name: str, value: str) -> PartnerQuerySet:
        return partners.beginning(None if value == OTHER else value)

    def askable(self, partners: PartnerQuerySet, name: str, value: str) -> PartnerQuerySet:
        day = self.desk.day
        if value == "open":
            return partners.not_resting_on(day)
        if value == "resting":
            return partners.resting_on(day).order_by("rest_until", "pk")
        if value == "never":
            return partners.never_to_ask()
        return partners.gone_quiet_since(cut_off(self.desk), day)
