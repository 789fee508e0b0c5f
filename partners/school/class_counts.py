"""How many students there were in a school year: kept when classes change for the next one, asked for past ones."""

from __future__ import annotations

from collections.abc import Iterable

from django.db.models import Count, Sum

from partners.ground.changes import Change
from partners.program.desk import Desk
from partners.school.count_models import ClassCount
from partners.school.models import ClosureKind, School
from partners.school.school_years import school_year

Counted = tuple[str, int, int]


def keep_last_year(book: Change, desk: Desk, schools: Iterable[School]) -> None:
    """Before the first change of classes in a school year: what stood at the end of the one before.

    None stood before the first one is written down; that is kept as well, so that nothing is told of years before.
    """
    for school in schools:
        ended = school.school_days.filter(kind=ClosureKind.YEAR).values_list("last", flat=True)
        last = school_year(desk.day, ended) - 1
        if desk.program.class_counts.filter(school=school, year__gte=last).exists():
            continue
        stood = school.classes.with_students().aggregate(classes=Count("pk"), students=Sum("students"))
        book.add(ClassCount(school=school, year=last, classes=stood["classes"], students=stood["students"] or 0))


def classes_in(desk: Desk, year: int) -> list[Counted]:
    """School, classes and students of the school year that began in `year`, by the school's name.

    What stood at the end of it is what was kept of it or, where nothing was, of the next one of which something was:
    classes did not change between. Where nothing was kept since, classes stand as they stood then. A school of which
    nothing was written down by then is left out.
    """
    kept: dict[int, Counted] = {}
    stored = desk.class_counts.filter(year__gte=year).select_related("school")
    for one in stored.order_by("school", "year"):
        kept.setdefault(one.school_id, (one.school.name, one.classes, one.students))
    today = (
        desk.classes.with_students()
        .order_by()
        .values_list("school", "school__name")
        .annotate(Count("pk"), Sum("students"))
    )
    for pk, *counted in today:
        kept.setdefault(pk, tuple(counted))
    return sorted(one for one in kept.values() if one[1])
