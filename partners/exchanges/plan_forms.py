"""Forms of the plan by class: which classes take part, and a share set by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.exchanges.models import Trade, TradeClass
from partners.ground.forms import DeskForm
from partners.school.class_ticks import ClassTicks
from partners.school.class_words import days_words, grade_words
from partners.school.models import SchoolClass

MOST = 1_000_000


@dataclass(frozen=True)
class Choice:
    """A class as it can be ticked."""

    row: SchoolClass
    takes_part: Any
    without: Any

    @property
    def about(self) -> str:
        """`Grade 3 · 24 students · Mon and Wed`."""
        days = days_words(self.row.meets_on, self.row.school.cycle_length)
        known = [grade_words(self.row.grade), _("%(count)d students") % {"count": self.row.students}, days]
        return " · ".join(part for part in known if part)


class ClassesForm(ClassTicks):
    """All classes the desk sees, those of the trade ticked, each with how many of its children do not take part."""

    def __init__(self, *args: Any, trade: Trade | None = None, **kwargs: Any) -> None:
        self.trade = trade
        rows: dict[int, TradeClass] = (
            {row.school_class_id: row for row in trade.classes.all()} if trade is not None else {}
        )
        super().__init__(*args, standing=rows, **kwargs)
        for one in self.known:
            row = rows.get(one.pk)
            self.fields[f"class-{one.pk}"] = forms.BooleanField(
                label=one.label, required=False, initial=row is not None
            )
            self.fields[f"without-{one.pk}"] = forms.IntegerField(
                label=_("children of %(label)s not taking part") % {"label": one.label},
                required=False,
                min_value=0,
                initial=row.not_taking_part if row is not None and row.not_taking_part else None,
            )

    @property
    def at_school(self) -> int | None:
        return self.trade.school_id if self.trade is not None else None

    def choice(self, one: SchoolClass) -> Choice:
        return Choice(one, self[f"class-{one.pk}"], self[f"without-{one.pk}"])

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        for one in self.known:
            without = data.get(f"without-{one.pk}") or 0
            if data.get(f"class-{one.pk}") and without > one.students:
                words = {"label": one.label, "students": one.students}
                self.add_error(f"without-{one.pk}", _("%(label)s has %(students)d students.") % words)
        if not any(data.get(f"class-{one.pk}") for one in self.known):
            self.add_error(None, _("Choose at least one class."))
        return data

    def chosen(self) -> list[tuple[SchoolClass, int]]:
        return [(one, self.cleaned_data[f"without-{one.pk}"] or 0) for one in self.taking_part()]


class ShareForm(DeskForm):
    """So many items for one class."""

    share = forms.IntegerField(
        label=gettext_lazy("Items"),
        min_value=0,
        max_value=MOST,
        error_messages={"required": gettext_lazy("Say how many."), "max_value": gettext_lazy("Is that number right?")},
    )
    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)


def share_form(desk: Any, row: TradeClass, data: Any = None) -> ShareForm:
    """Each on a page of many has ids of its own."""
    initial = {"share": row.share, "seen": row.version}
    return ShareForm(data, desk=desk, initial=initial, auto_id=f"share-{row.pk}-%s")


def outside(desk: Any, trade: Trade) -> Sequence[tuple[SchoolClass, int]]:
    """Classes of the trade that this desk does not see: they stay as they are."""
    rows = trade.classes.exclude(school_class__in=desk.classes).select_related("school_class")
    return [(row.school_class, row.not_taking_part) for row in rows]
