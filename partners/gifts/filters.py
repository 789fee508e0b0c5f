"""What a list of gifts can be narrowed to."""

from __future__ import annotations

from typing import Any

import django_filters  # type: ignore[import-untyped]
from django import forms
from django.db.models import Max, Min
from django.utils.translation import gettext_lazy as _

from partners.gifts.models import Form, Gift, GiftQuerySet, Source
from partners.ground.years import first_day, last_day, name_of, year_of
from partners.program.desk import Desk


class GiftFilter(django_filters.FilterSet):  # type: ignore[misc]
    """Needs the desk as `desk`. A choice that does not exist narrows nothing and is said at its field."""

    q = django_filters.CharFilter(
        label=_("What came, or from whom"),
        method="holding",
        widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"}),
    )
    year = django_filters.ChoiceFilter(label=_("Year"), method="in_year", empty_label=_("every year"))
    school = django_filters.ChoiceFilter(label=_("School"), method="at_school", empty_label=_("every school"))
    form = django_filters.ChoiceFilter(label=_("Kind of gift"), choices=Form, empty_label=_("every kind"))
    source = django_filters.ChoiceFilter(label=_("From"), choices=Source, empty_label=_("everybody"))

    class Meta:
        model = Gift
        fields = ["q", "year", "school", "form", "source"]

    def __init__(self, *args: Any, desk: Desk, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, queryset=desk.gifts, **kwargs)
        self.filters["year"].extra["choices"] = years(desk)
        self.filters["school"].extra["choices"] = [(str(one.pk), one.name) for one in desk.schools]

    def holding(self, gifts: GiftQuerySet, name: str, value: str) -> GiftQuerySet:
        return gifts.search(value)

    def in_year(self, gifts: GiftQuerySet, name: str, value: str) -> GiftQuerySet:
        begins = self.desk.program.fiscal_year_starts
        return gifts.filter(day__gte=first_day(int(value), begins), day__lte=last_day(int(value), begins))

    def at_school(self, gifts: GiftQuerySet, name: str, value: str) -> GiftQuerySet:
        return gifts.filter(school=int(value))


def years(desk: Desk) -> list[tuple[str, str]]:
    """The years in which something came, the latest first."""
    ends = desk.gifts.order_by().aggregate(first=Min("day"), last=Max("day"))
    if ends["first"] is None:
        return []
    begins = desk.program.fiscal_year_starts
    found = range(year_of(ends["last"], begins), year_of(ends["first"], begins) - 1, -1)
    return [(str(year), name_of(year, begins)) for year in found]
