"""What the lists of helpers and sessions can be narrowed to."""

from __future__ import annotations

from typing import Any

import django_filters  # type: ignore[import-untyped]
from django import forms
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext_lazy as _

from partners.ground.names import name_key
from partners.helpers.jobs import Job
from partners.helpers.models import Helper, HelperQuerySet
from partners.helpers.session_models import Session
from partners.helpers.words import SCHOOL_DAYS

STATES = [
    ("new", _("not yet called")),
    ("unread", _("slip cannot be read yet")),
    ("cleared", _("cleared")),
    ("not_cleared", _("not cleared")),
    ("stopped", _("no longer helping")),
]
WHEN = [("coming", _("coming")), ("past", _("past"))]


class HelperFilter(django_filters.FilterSet):  # type: ignore[misc]
    """Needs the desk as `desk`. Who stopped or asked to be forgotten is in the list only where that is chosen."""

    q = django_filters.CharFilter(
        label=_("Name"), method="named", widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"})
    )
    state = django_filters.ChoiceFilter(label=_("State"), choices=STATES, method="in_state", empty_label=_("all"))
    job = django_filters.ChoiceFilter(label=_("Job"), choices=Job.choices, method="can_do", empty_label=_("any"))
    on = django_filters.ChoiceFilter(
        label=_("Day"), choices=[(day, WEEKDAYS[day]) for day in SCHOOL_DAYS], method="on_day", empty_label=_("any")
    )
    batch = django_filters.NumberFilter(label=_("Stack"), method="of_batch", min_value=0, max_value=2**31)

    class Meta:
        model = Helper
        fields = ["q", "state", "job", "on", "batch"]

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, queryset=desk.helpers.filter(forgotten_on=None), **kwargs)

    def filter_queryset(self, helpers: HelperQuerySet) -> HelperQuerySet:
        found: HelperQuerySet = super().filter_queryset(helpers)
        stopped = self.form.cleaned_data.get("state") == "stopped"
        return found if stopped else found.filter(stopped_on=None)

    def named(self, helpers: HelperQuerySet, name: str, value: str) -> HelperQuerySet:
        for word in name_key(value).split():
            helpers = helpers.filter(name_key__contains=word)
        return helpers

    def in_state(self, helpers: HelperQuerySet, name: str, value: str) -> HelperQuerySet:
        day = self.desk.day
        if value == "new":
            return helpers.not_yet_called()
        if value == "unread":
            return helpers.to_read()
        if value == "stopped":
            return helpers.filter(stopped_on__isnull=False)
        cleared = helpers.cleared_on(day)
        return cleared if value == "cleared" else helpers.exclude(pk__in=cleared.values("pk"))

    def can_do(self, helpers: HelperQuerySet, name: str, value: str) -> HelperQuerySet:
        return helpers.filter(jobs__icontains=f'"{value}"')

    def on_day(self, helpers: HelperQuerySet, name: str, value: str) -> HelperQuerySet:
        return helpers.filter(days__icontains=value)

    def of_batch(self, helpers: HelperQuerySet, name: str, value: Any) -> HelperQuerySet:
        return helpers.filter(batch__number=int(value))


class SessionFilter(django_filters.FilterSet):  # type: ignore[misc]
    """Needs the desk as `desk`."""

    when = django_filters.ChoiceFilter(label=_("When"), choices=WHEN, method="at_time", empty_label=_("all"))
    job = django_filters.ChoiceFilter(label=_("Job"), choices=Job.choices, empty_label=_("any"))

    class Meta:
        model = Session
        fields = ["when", "job"]

    def __init__(self, *args: Any, desk: Any, **kwargs: Any) -> None:
        self.desk = desk
        super().__init__(*args, queryset=desk.sessions.select_related("school"), **kwargs)

    def at_time(self, sessions: Any, name: str, value: str) -> Any:
        day = self.desk.day
        return sessions.filter(day__gte=day) if value == "coming" else sessions.filter(day__lt=day)
