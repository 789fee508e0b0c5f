"""The form that ticks which of all classes take part in something."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import groupby
from typing import Any

from django.db.models import Q

from partners.ground.forms import DeskForm
from partners.school.class_words import grade_words
from partners.school.models import SchoolClass


class ClassTicks(DeskForm):
    """All classes the desk sees, by school and grade: the field `class-7` ticks the class with the number 7.

    One without students is gone, and stands here only where it is one of the `standing`, which were chosen before.
    """

    def __init__(self, *args: Any, standing: Collection[int] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        known = (
            self.desk.classes.filter(Q(students__gt=0) | Q(pk__in=standing))
            .select_related("school")
            .order_by("school__name", "school", "grade", "label")
        )
        # The one school that it is about comes first.
        self.known: list[SchoolClass] = sorted(known, key=lambda one: one.school_id != self.at_school)

    @property
    def at_school(self) -> int | None:
        """The number of the one school that it is about."""
        return None

    def schools(self) -> Iterator[tuple[Any, list[Any], bool]]:
        """School by school, and whether it is another one of which nothing is ticked."""
        for school, classes in groupby(self.known, key=lambda one: one.school):
            rows = list(classes)
            ticked = any(self[f"class-{one.pk}"].value() for one in rows)
            yield school, [self.choice(one) for one in rows], not ticked and self.elsewhere(rows[0])

    def elsewhere(self, one: SchoolClass) -> bool:
        return self.at_school not in (None, one.school_id)

    def choice(self, one: SchoolClass) -> Any:
        """A class as the page shows it."""
        return self[f"class-{one.pk}"]

    def grades(self) -> list[tuple[int, str]]:
        return [(grade, grade_words(grade)) for grade in sorted({one.grade for one in self.known})]

    def ticked(self, which: str) -> dict[str, Any]:
        """What was typed, with the classes ticked that `which` names: all, none, school-7 or grade-3.

        Where it is about one school, all and a grade are that school's.
        """
        data = self.data.dict() if hasattr(self.data, "dict") else dict(self.data)
        for one in self.known:
            here = which in ("all", f"grade-{one.grade}") and not self.elsewhere(one)
            if here or which == f"school-{one.school_id}":
                data[f"class-{one.pk}"] = "on"
            elif which == "none":
                data.pop(f"class-{one.pk}", None)
        return data

    def taking_part(self) -> list[SchoolClass]:
        """Of a valid form."""
        return [one for one in self.known if self.cleaned_data[f"class-{one.pk}"]]
