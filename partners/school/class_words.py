"""Grades and days of classes in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.school.class_cells import KINDERGARTEN, LAST_GRADE, PRE_K

SHORT_DAYS = [
    gettext_lazy("Mon"),
    gettext_lazy("Tue"),
    gettext_lazy("Wed"),
    gettext_lazy("Thu"),
    gettext_lazy("Fri"),
    gettext_lazy("Sat"),
    gettext_lazy("Sun"),
]


def grade_words(grade: int | None) -> str:
    """`Pre-K`, `Kindergarten`, `Grade 3`."""
    if grade is None:
        return ""
    if grade <= PRE_K:
        return _("Pre-K")
    return _("Kindergarten") if grade == KINDERGARTEN else _("Grade %(grade)d") % {"grade": grade}


def short_grade(grade: int | None) -> str:
    """`Pre-K`, `K`, `3`: where a heading says that it is the grade."""
    if grade is None:
        return ""
    if grade == KINDERGARTEN:
        return _("K")
    return str(grade) if grade > KINDERGARTEN else grade_words(grade)


def grade_choices() -> list[tuple[int, str]]:
    return [(grade, grade_words(grade)) for grade in range(PRE_K, LAST_GRADE + 1)]


def days_words(days: Sequence[int], cycle_length: int) -> str:
    """`Mon and Wed`, or `Days 1 and 4` of a rotating cycle; nothing where no day is known."""
    if not days:
        return ""
    if not cycle_length:
        return get_text_list([str(SHORT_DAYS[day]) for day in sorted(days) if 0 <= day <= 6], _("and"))
    listed = get_text_list([str(day) for day in sorted(days)], _("and"))
    return ngettext("Day %(days)s", "Days %(days)s", len(days)) % {"days": listed}


def day_choices(weekdays: Iterable[int], cycle_length: int) -> list[tuple[int, str]]:
    """What can be ticked in a school: its weekdays, or the days of its cycle."""
    if cycle_length:
        return [(day, _("Day %(days)s") % {"days": day}) for day in range(1, cycle_length + 1)]
    return [(day, str(SHORT_DAYS[day])) for day in sorted(weekdays)]
