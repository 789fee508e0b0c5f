"""A pasted list of classes beside what the book holds: to be shown row by row, and to be saved."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from django.db.models import Q, QuerySet
from django.utils.translation import gettext

from partners.program.desk import Desk
from partners.school.actions import ClassLine
from partners.school.class_cells import Week
from partners.school.class_paste import Known, Paste
from partners.school.class_words import days_words, short_grade
from partners.school.models import SchoolClass


def known_schools(desk: Desk) -> list[Known]:
    """The desk's schools with their labels, in two queries."""
    labels: dict[int, list[str]] = defaultdict(list)
    for school_id, label in desk.classes.order_by("label").values_list("school_id", "label"):
        labels[school_id].append(label)
    return [
        Known(school.pk, school.name, Week(tuple(school.weekdays), school.cycle_length), labels[school.pk])
        for school in desk.schools.order_by("name")
    ]


def lines_of(desk: Desk, paste: Paste) -> list[ClassLine]:
    """What a list that is right says, for the verb."""
    schools = {school.pk: school for school in desk.schools}
    return [ClassLine(schools[row.school.pk], row.label, row.values) for row in paste.rows if row.school is not None]


def shown_rows(desk: Desk, paste: Paste) -> list[dict[str, Any]]:
    """Each row in words, with the values that a class would have afterwards; those with something wrong come first."""
    stored = {(row.school_id, row.label): row for row in desk.classes}
    found = []
    for row in paste.rows:
        before = stored.get((row.school.pk, row.label)) if row.school and not row.is_new else None
        kept = {name: getattr(before, name, None) for name in ("grade", "students", "meets_on", "minutes")}
        after = kept | row.values
        length = row.school.week.cycle_length if row.school else 0
        found.append(
            {
                "number": row.number,
                "school": row.school.name if row.school else "",
                "label": row.label,
                "grade": short_grade(after["grade"]),
                "students": after["students"],
                "days": days_words(after["meets_on"] or [], length),
                "minutes": after["minutes"],
                "wrong": [gettext(error.sentence) % error.facts for error in row.wrong],
                "is_new": row.is_new,
                "changes": before is not None and after != kept,
            }
        )
    return sorted(found, key=lambda row: not row["wrong"])


def not_listed(desk: Desk, paste: Paste) -> tuple[QuerySet[SchoolClass], list[str]]:
    """Classes of these schools that a list that is right does not name: those that can be taken out, and the labels of
    those that something else stands on."""
    named = defaultdict(set)
    for row in paste.rows:
        if row.school is not None:
            named[row.school.pk].add(row.label)
    others = Q(pk__in=())
    for school_id, labels in named.items():
        others |= Q(school=school_id) & ~Q(label__in=labels)
    standing = desk.classes.with_students().filter(others)
    going_on = desk.program.trades.with_something_open()
    at_work = desk.program.trade_classes.filter(trade__in=going_on).values("school_class")
    free = standing.exclude(pk__in=at_work).filter(project_classes=None, lost_lessons=None)
    return free, list(standing.exclude(pk__in=free).values_list("label", flat=True))
