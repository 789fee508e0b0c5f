"""Forms of shows: what is to be done with how many works, and what it took in the end."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.ground.forms import DeskForm, Grouped, RowForm, choose_the_only
from partners.helpers.jobs import Job
from partners.helpers.show_actions import Took
from partners.helpers.show_models import Show, ShowJob
from partners.helpers.show_plan import JOBS, START_TENTHS, JobOfShow

MOST_WORKS = 20_000
MINUTES = {"step": "0.1", "inputmode": "decimal"}


class ShowForm(Grouped, RowForm):
    """The show, and for each job the minutes a work; an empty one is not done at this show.

    `averages` are tenths of a minute by job, from what was written down at earlier shows.
    """

    class Meta:
        model = Show
        fields = [
            "title", "school", "project", "place", "opens_on", "opens_at", "closes_on",
            "works", "works_per_panel", "first_timers_percent", "helpers_at_once", "session_minutes",
        ]  # fmt: skip
        help_texts = {
            "first_timers_percent": gettext_lazy(
                "Added to figures to start from. Minutes you measured hold it already."
            ),
            "closes_on": gettext_lazy("The day on which it comes down."),
            "works": gettext_lazy("About how many pieces will hang."),
        }

    GROUPS = (
        (gettext_lazy("The show"), ("title", "school", "project", "place", "opens_on", "opens_at", "closes_on")),
        (gettext_lazy("How much"), ("works", "works_per_panel")),
        (gettext_lazy("Helpers"), ("helpers_at_once", "session_minutes", "first_timers_percent")),
    )

    def __init__(self, *args: Any, averages: dict[str, int] | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choose_the_only(self, "school")
        self.averages = averages or {}
        stored = {row.job: row for row in self.instance.jobs.all()} if self.instance.pk else None
        for job in JOBS:
            row = stored.get(job) if stored is not None else None
            self.fields[minutes_field(job)] = self._minutes(job, stored, row)
            self.fields[works_field(job)] = self._works(job, row)
        usual = {"works_per_panel": 12, "first_timers_percent": 20, "helpers_at_once": 3, "session_minutes": 60}
        for name in usual:
            self.fields[name].required = False
        self.usual = usual

    def _minutes(self, job: str, stored: dict[str, ShowJob] | None, row: ShowJob | None) -> forms.DecimalField:
        average = self.averages.get(job)
        tenths = row.tenths_per_work if row else average or START_TENTHS[job]
        return forms.DecimalField(
            label=str(Job(job).label),
            required=False,
            min_value=Decimal("0.1"),
            max_value=600,
            decimal_places=1,
            initial=None if stored is not None and row is None else Decimal(tenths) / 10,
            help_text=where_from(job, average),
            widget=forms.NumberInput(attrs=MINUTES),
        )

    def _works(self, job: str, row: ShowJob | None) -> forms.IntegerField:
        own = row.works if row and row.works != self.instance.works else None
        label = _("Works, where not all of them")
        return forms.IntegerField(label=label, required=False, min_value=1, max_value=1_000_000, initial=own)

    def clean_works(self) -> int:
        works: int = self.cleaned_data["works"]
        if works > MOST_WORKS:
            raise forms.ValidationError(_("So many works in one show? Check the number."))
        return works

    def job_rows(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[minutes_field(job)], self[works_field(job)]) for job in JOBS]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        for name, usual in self.usual.items():
            if name not in self.errors and values.get(name) is None:
                values[name] = usual
                setattr(self.instance, name, usual)
        if not any(values.get(minutes_field(job)) for job in JOBS) and not self.errors:
            self.add_error(minutes_field(JOBS[0]), _("Fill in the minutes for at least one job."))
        self._check_measured(values)
        return values

    def _check_measured(self, values: dict[str, Any]) -> None:
        if not self.instance.pk:
            return
        for row in self.instance.jobs.filter(real_minutes__isnull=False):
            name = minutes_field(row.job)
            if name not in self.errors and values.get(name) is None:
                self.add_error(name, _("Its real minutes are written down here, so it stays in the plan."))

    def jobs(self) -> list[JobOfShow]:
        """What is to be done. Minutes that are the average of earlier shows count as measured."""
        typed = self.cleaned_data
        found = []
        for job in JOBS:
            minutes = typed.get(minutes_field(job))
            if minutes is not None:
                tenths = int(minutes * 10)
                works = typed.get(works_field(job)) or typed["works"]
                found.append(JobOfShow(job, works, tenths, measured=self.averages.get(job) == tenths))
        return found


class MinutesForm(DeskForm):
    """What the jobs of one show really took: works that were done, and the minutes of all helpers together."""

    def __init__(self, *args: Any, rows: Sequence[ShowJob] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.rows = rows
        for row in self.rows:
            name, job = row.job, str(row)
            works = row.works if row.real_works is None else row.real_works
            self.fields[works_field(name)] = self._count(_("Works: %(job)s") % {"job": job}, works)
            self.fields[minutes_field(name)] = self._count(_("Minutes: %(job)s") % {"job": job}, row.real_minutes)

    @staticmethod
    def _count(label: str, initial: int | None) -> forms.IntegerField:
        return forms.IntegerField(label=label, required=False, min_value=1, max_value=1_000_000, initial=initial)

    def job_rows(self) -> list[tuple[ShowJob, forms.BoundField, forms.BoundField]]:
        return [(row, self[works_field(row.job)], self[minutes_field(row.job)]) for row in self.rows]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        for row in self.rows:
            works, minutes = works_field(row.job), minutes_field(row.job)
            if values.get(minutes) and not values.get(works) and works not in self.errors:
                self.add_error(works, _("How many works were done in these minutes?"))
        return values

    def took(self) -> dict[str, Took]:
        """Works without minutes were only offered, and say nothing."""
        found = {}
        for row in self.rows:
            minutes = self.cleaned_data.get(minutes_field(row.job))
            works = self.cleaned_data.get(works_field(row.job)) if minutes else None
            found[row.job] = Took(works=works, minutes=minutes)
        return found


def minutes_field(job: str) -> str:
    return f"{job}_minutes"


def works_field(job: str) -> str:
    return f"{job}_works"


def where_from(job: str, average: int | None) -> str:
    """Says whether the minutes a work were measured or are a figure to start from."""
    if average is None:
        start = Decimal(START_TENTHS[job]) / 10
        return _("Minutes a work. %(start)s is an estimate to start from.") % {"start": start.normalize()}
    measured = (Decimal(average) / 10).normalize()
    return _("Minutes a work. %(measured)s is the average of what you wrote down.") % {"measured": measured}
